import type { Grammar } from '../phrasebook/index.ts';
import { LEAD_FRAMES } from './hear-file.ts';
import { FRAME_MS } from './level.ts';
import type { Hypothesis } from './recogniser.ts';

/** A silence of this length is worth a look at what was said so far. */
export const LOOK_AFTER_MS = 180;
/** A silence is looked at whenever there is one, but a noise that comes and goes must not take more than a third of the time. */
const SILENCE_SHARE = 2;
/** Speech that stands out by less leaves no silence that can be trusted. */
export const STANDS_OUT_DB = 22;
/** There a look is taken this often, and never so that looking takes more than a fifth of the time. */
const LOOK_EVERY_MS = 400;
const LOOK_SHARE = 5;
/** Where only the words tell the end, they must have been over for so much longer: their own ends are not exact. */
export const WORDS_ONLY_MS = 200;

/** What was made of an utterance that may go on, up to (not with) frame `upTo`; `last` was its last spoken frame then. */
export type Look = { readonly grammar: Grammar; readonly upTo: number; readonly last: number; readonly hypothesis: Hypothesis };

/**
 * An utterance that is open, by ear or by a button. Numbers are those of frames: `spoken` is the last that was speech, `nextLook`
 * and `nextSilence` the first at which speech that never falls silent, and a silence, may be looked at again.
 */
export type Open = {
  from: number;
  spoken: number | null;
  look: Look | null;
  looking: boolean;
  nextLook: number;
  nextSilence: number;
};

export const opened = (from: number): Open => ({
  from,
  spoken: null,
  look: null,
  looking: false,
  nextLook: from + LEAD_FRAMES + LOOK_EVERY_MS / FRAME_MS,
  nextSilence: from,
});

/** After a look that took so many milliseconds, leaves the thread free for its share before the next. */
export function waitAfterLook(open: Open, frame: number, tookMs: number): void {
  open.nextLook = frame + Math.ceil(Math.max(LOOK_EVERY_MS, LOOK_SHARE * tookMs) / FRAME_MS);
  open.nextSilence = frame + Math.ceil((SILENCE_SHARE * tookMs) / FRAME_MS);
}
