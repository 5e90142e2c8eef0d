import type { Grammar } from '../phrasebook/index.ts';
import { Endpointer, ENDPOINTS } from './endpointer.ts';
import { frameLevels, quantile } from './level.ts';
import { FRAME_SAMPLES } from './meter.ts';
import type { Hypothesis, Recogniser } from './recogniser.ts';
import { EAR_RATE_HZ } from './resample.ts';

/** How the ends of the utterances in a file are found: the whole file is one (as with a button held), or by ear. */
export type FileEnds = 'whole' | 'by-ear';

/** A stretch of sound, in samples. */
export type Stretch = { readonly from: number; readonly to: number };

/** Sound kept before and after what was taken for speech: its soft beginning and end. */
export const LEAD_FRAMES = 35;
export const TAIL_FRAMES = 30;

/** The utterances of a whole sound at 16 kHz, found as they would be live. */
export function utterancesOf(samples: Float32Array): readonly Stretch[] {
  const levels = frameLevels(samples, EAR_RATE_HZ);
  const endpointer = new Endpointer(ENDPOINTS, quantile(levels, 0.1));
  const found: Stretch[] = [];
  const take = (end: ReturnType<Endpointer['frame']>): void => {
    if (end?.type !== 'end') return;
    found.push({
      from: Math.max(0, (end.first - LEAD_FRAMES) * FRAME_SAMPLES),
      to: Math.min(samples.length, (end.last + 1 + TAIL_FRAMES) * FRAME_SAMPLES),
    });
  };
  levels.forEach((level) => take(endpointer.frame(level)));
  take(endpointer.flush());
  return found;
}

/** What a recogniser makes of a sound at 16 kHz: one hypothesis for each utterance in it, in order; none where nobody speaks. */
export async function hearSound(
  recogniser: Recogniser,
  samples: Float32Array,
  grammar: Grammar,
  ends: FileEnds,
): Promise<readonly Hypothesis[]> {
  const stretches = ends === 'whole' ? [{ from: 0, to: samples.length }] : utterancesOf(samples);
  const heard: Hypothesis[] = [];
  for (const { from, to } of stretches) {
    await recogniser.open(grammar);
    recogniser.accept(samples.subarray(from, to));
    heard.push(await recogniser.finish());
  }
  return heard;
}
