import type { Level } from './meter.ts';
import type { HearingRefusal } from './recogniser.ts';

/**
 * Why the ear cannot hear: the machine is too loud by so many decibels; the microphone delivers nothing; it delivers sound, but
 * never a voice, so it may be another microphone than the person's; it overloads; or somebody else is talking.
 */
export type HearingTrouble =
  | { readonly why: 'machine-too-loud'; readonly byDb: number }
  | { readonly why: 'microphone-silent' }
  | { readonly why: 'wrong-microphone' }
  | { readonly why: 'overloaded' }
  | { readonly why: 'another-talker' };

/** A trouble as a sentence with what to do about it. `microphone` is the name that the browser gives it, or null. */
export function describeTrouble(trouble: HearingTrouble, microphone: string | null): string {
  const named = microphone === null || microphone === '' ? 'The microphone' : `The microphone "${microphone}"`;
  switch (trouble.why) {
    case 'machine-too-loud':
      return `The machine is too loud by ${trouble.byDb} dB. Come closer to the microphone, or use the buttons.`;
    case 'microphone-silent':
      return `${named} delivers no sound. It may be muted, or not the one in use.`;
    case 'wrong-microphone':
      return `${named} hears the button pressed and no voice. Choose the one that you speak into.`;
    case 'overloaded':
      return `${named} is overloaded. Speak from further away, or turn it down.`;
    case 'another-talker':
      return 'Somebody else is talking. Hold the button while you speak.';
  }
}

/** Speech at the microphone when nothing better is known; -25 to -15 is usual for a headset or a tablet at arm's length. */
const USUAL_SPEECH_DB = -23;
/** With less than this between speech and floor few words come out right (docs/ear.md). */
const NEEDED_DB = 5;
/** Below this there is not even the hiss of a microphone. */
const SILENT_DB = -90;
const SILENT_READINGS = 30;
/** Overload counts when it comes in so many of the last readings. */
const READINGS = 30;
const OVERLOADED_READINGS = 3;
/** So many utterances in a row that were no command, within so long, are somebody else's talk. */
const TALK = 4;
const TALK_WITHIN_MS = 20_000;
/** Times that the button was held and nothing was said. */
const HELD_IN_VAIN = 3;

/**
 * Keeps watch over what keeps the ear from hearing, from its level readings (ten a second) and what became of its utterances.
 * State: the last readings and refusals.
 */
export class TroubleWatch {
  readonly #now: () => number;
  #speechDb: number = USUAL_SPEECH_DB;
  #silent = 0;
  #loudByDb = 0;
  #clipped: boolean[] = [];
  #strange: number[] = [];
  #heldInVain = 0;

  constructor(now: () => number) {
    this.#now = now;
  }

  /** How loud the person is, from the set-up; null for what is usual. */
  speaksAt(speechDb: number | null): void {
    this.#speechDb = speechDb ?? USUAL_SPEECH_DB;
  }

  level({ rmsDb, floorDb, clipping }: Level): void {
    this.#silent = rmsDb <= SILENT_DB ? this.#silent + 1 : 0;
    this.#loudByDb = Math.ceil(floorDb + NEEDED_DB - this.#speechDb);
    this.#clipped = [...this.#clipped, clipping].slice(-READINGS);
  }

  /** An utterance is over: accepted (null), or refused for a reason; `held` where the button was down for it. */
  heard(refusal: HearingRefusal | null, held: boolean): void {
    const nothing = refusal === 'silence' || refusal === 'too-short' || refusal === 'not-speech';
    this.#heldInVain = held && nothing ? this.#heldInVain + 1 : held || refusal === null ? 0 : this.#heldInVain;
    if (refusal === null || held) this.#strange = [];
    else if (!nothing) this.#strange = [...this.#strange, this.#now()].slice(-TALK);
  }

  /** The weightiest trouble of this moment. */
  get trouble(): HearingTrouble | null {
    if (this.#silent >= SILENT_READINGS) return { why: 'microphone-silent' };
    if (this.#loudByDb > 0) return { why: 'machine-too-loud', byDb: this.#loudByDb };
    if (this.#clipped.filter(Boolean).length >= OVERLOADED_READINGS) return { why: 'overloaded' };
    if (this.#heldInVain >= HELD_IN_VAIN) return { why: 'wrong-microphone' };
    const [first] = this.#strange;
    if (this.#strange.length === TALK && first !== undefined && this.#now() - first < TALK_WITHIN_MS)
      return { why: 'another-talker' };
    return null;
  }
}
