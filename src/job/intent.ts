import type { InstrumentKind, Length, Temperature } from '../measure/index.ts';
import type { SetUpCount, SetUpLength } from './setUpLog.ts';

/** Where on the part a reading was taken. */
export type Place = 'at-the-shoulder' | 'at-the-end' | 'in-the-middle' | 'across';

/** The thing measured, when the speaker names it; otherwise what the operation awaits. */
export type Thing = 'bore' | 'length' | 'shoulder' | 'width' | 'depth' | 'diameter';

/** How the part goes on its mate, in the words people use. */
export type Feel = 'wont-start' | 'tight' | 'binds-at-the-shoulder' | 'binds-at-the-end' | 'slides' | 'loose';

/** What the hands are doing to the metal. */
export type Working = 'turning' | 'filing' | 'polishing';

/** Why words that were taken for a number gave none. */
export type NumberRefusal =
  | 'no-number' // the words hold no number
  | 'not-a-number-here' // a number, but of a kind that makes no sense here (a temperature for a diameter)
  | 'centimetres' // shops do not use them: asked to say it in millimetres
  | 'vague' // "a hair"
  | 'finer-than-instrument' // more digits than the instrument shows
  | 'no-last-reading' // relative to a last reading that is not there
  | 'no-target' // relative to a target that is not there
  | 'outside-everything'; // no candidate is within reach of the stock, the window or the machine

/**
 * What became of a spoken or typed number: one value; two that are both plausible, the likelier first, to be asked about;
 * or none, with the reason.
 */
export type Heard<T> =
  | { readonly as: 'one'; readonly value: T }
  | { readonly as: 'either'; readonly values: readonly [T, T] }
  | { readonly as: 'none'; readonly reason: NumberRefusal };

/** A command as understood, before it meets the state. One member for each entry of the command table. */
export type Intent =
  // moving
  | { readonly type: 'next' }
  | { readonly type: 'back' }
  | { readonly type: 'skip' }
  | { readonly type: 'go-to'; readonly step: Heard<number> }
  | { readonly type: 'where-am-i' }
  | { readonly type: 'whats-next' }
  | { readonly type: 'repeat' }
  // asking
  | { readonly type: 'ask-target' }
  | { readonly type: 'ask-left' }
  | { readonly type: 'ask-passes' }
  | { readonly type: 'ask-dial' }
  | { readonly type: 'ask-stop' }
  | { readonly type: 'ask-speed' }
  | { readonly type: 'ask-feed' }
  | { readonly type: 'ask-last' }
  | { readonly type: 'ask-taken' }
  | { readonly type: 'ask-bore' }
  | { readonly type: 'ask-fit' }
  | { readonly type: 'ask-time' }
  | { readonly type: 'ask-caution' }
  | { readonly type: 'read-log' }
  // readings
  | {
      readonly type: 'reading';
      readonly spoken: 'with-verb' | 'bare' | 'typed';
      readonly instrument: InstrumentKind | null;
      readonly thing: Thing | null;
      readonly place: Place | null;
      readonly value: Heard<Length>;
    }
  | { readonly type: 'temperature'; readonly value: Heard<Temperature> }
  // cutting
  | { readonly type: 'took'; readonly value: Heard<Length> }
  | { readonly type: 'dial'; readonly value: Heard<Length> }
  | { readonly type: 'touched-off' }
  | { readonly type: 'dial-zeroed' }
  // fit
  | { readonly type: 'feel'; readonly feel: Feel }
  | { readonly type: 'working'; readonly working: Working }
  | { readonly type: 'filed'; readonly in: 'rounds' | 'strokes' | 'seconds'; readonly value: Heard<number> }
  // set-up
  | { readonly type: 'jaw'; readonly jaw: 1 | 2 | 3 | 4; readonly value: Heard<Length> }
  | { readonly type: 'indicator'; readonly end: 'low' | 'high'; readonly value: Heard<Length> }
  | { readonly type: 'edge'; readonly edge: 'first' | 'other' | 'end'; readonly value: Heard<Length> }
  | { readonly type: 'spot'; readonly value: Heard<Length> }
  | { readonly type: 'set-up-count'; readonly what: SetUpCount; readonly value: Heard<number> }
  | { readonly type: 'set-up-length'; readonly what: SetUpLength; readonly value: Heard<Length> }
  | { readonly type: 'next-hole' }
  | { readonly type: 'ask-set-up' }
  | { readonly type: 'ask-why' }
  | { readonly type: 'ask-packing' }
  | { readonly type: 'ask-taper' }
  // putting right
  | { readonly type: 'scratch' }
  | { readonly type: 'correct'; readonly value: Heard<Length> }
  | { readonly type: 'yes' }
  | { readonly type: 'no' }
  | { readonly type: 'cancel' }
  // the assistant
  | { readonly type: 'wake' }
  | { readonly type: 'stop-listening' }
  | { readonly type: 'louder' }
  | { readonly type: 'quieter' }
  | { readonly type: 'slower' }
  | { readonly type: 'hush' }
  | { readonly type: 'what-can-i-say' }
  | { readonly type: 'memo' };

export type IntentType = Intent['type'];

/** The commands that carry a length. */
export type LengthIntent = Extract<Intent, { readonly value: Heard<Length> }>;
