import { assert } from '../measure/index.ts';
import type { ClipBook } from './clip-book.ts';
import type { AnswerStep, PausePlace } from './plan-answer.ts';
import { samplesIn, type Sound } from './sound.ts';
import { stretched } from './stretch.ts';

/** Silence between sounds, in milliseconds: about what flite leaves inside a phrase, and at its full stops. */
export const PAUSE_MS: Readonly<Record<PausePlace, number>> = { word: 45, sentence: 260, question: 180 };

/** Silence after the last sample: the player's end timer is not the audio clock, and must not cut a consonant off. */
export const END_MS = 60;
/** Silence between a tone and the words after it. */
const AFTER_TONE_MS = 120;

/** What is handed to a player: sound made here, or text for the device's own voice. */
export type AnswerPart =
  | { readonly part: 'sound'; readonly sound: Sound }
  | { readonly part: 'device'; readonly text: string };

function joined(pieces: readonly Sound[]): Sound {
  const whole = new Float32Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let from = 0;
  for (const piece of pieces) {
    whole.set(piece, from);
    from += piece.length;
  }
  return whole;
}

const silence = (ms: number): Sound => new Float32Array(samplesIn(ms));

/**
 * An answer as few sounds as can be: everything between two lines of the device's voice is one sound, so that no timer stands
 * between its words. `stretch` (1 or more) lengthens clips and pauses, not the tone.
 */
export function assemble(
  steps: readonly AnswerStep[],
  clips: Pick<ClipBook, 'sound'>,
  tone: Sound | null,
  stretch: number,
): readonly AnswerPart[] {
  const parts: AnswerPart[] = [];
  const hasWords = steps.some((step) => step.step === 'clip' || step.step === 'device');
  let pieces: Sound[] = tone === null ? [] : hasWords ? [tone, silence(AFTER_TONE_MS)] : [tone];
  const close = (): void => {
    if (pieces.length === 0) return;
    parts.push({ part: 'sound', sound: joined([...pieces, silence(END_MS)]) });
    pieces = [];
  };
  for (const step of steps) {
    switch (step.step) {
      case 'clip': {
        const sound = clips.sound(step.key);
        assert(sound !== null, `the plan names clips that exist ("${step.key}")`);
        pieces.push(stretched(sound, stretch));
        break;
      }
      case 'pause':
        pieces.push(silence(PAUSE_MS[step.place] * stretch));
        break;
      case 'device':
        close();
        parts.push({ part: 'device', text: step.text });
        break;
      case 'unspoken':
        break;
    }
  }
  close();
  return parts;
}
