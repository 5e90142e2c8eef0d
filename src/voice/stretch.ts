import { samplesIn, type Sound } from './sound.ts';

const FRAME_MS = 30;
/** How far a frame may be moved to fall in with the wave before it: most of one period of the lowest voice (about 100 Hz). */
const SEARCH_MS = 9;
/** Every third place is tried, by every second sample: a shift of a fifth of a millisecond is not heard in speech. */
const PLACE_STEP = 3;
const SAMPLE_STEP = 2;

/** The start, near `due`, of the stretch most like the one at `wanted`: the product of the two, by the size of the second. */
function mostAlike(sound: Sound, wanted: number, due: number, search: number, length: number): number {
  let best = due;
  let most = -Infinity;
  for (let tried = Math.max(0, due - search); tried <= due + search; tried += PLACE_STEP) {
    let product = 0;
    let power = 1e-9;
    for (let at = 0; at < length; at += SAMPLE_STEP) {
      const other = sound[tried + at]!;
      product += sound[wanted + at]! * other;
      power += other * other;
    }
    const alike = product / Math.sqrt(power);
    if (alike > most) {
      most = alike;
      best = tried;
    }
  }
  return best;
}

/**
 * The same speech, `factor` (1 or more) times as long at the same pitch. By overlap and add with the frames moved to where
 * they match (WSOLA).
 * Source: W. Verhelst and M. Roelands, "An overlap-add technique based on waveform similarity (WSOLA)", ICASSP 1993.
 */
export function stretched(sound: Sound, factor: number): Sound {
  const frame = samplesIn(FRAME_MS);
  if (factor <= 1 || sound.length <= frame) return sound;
  const half = frame / 2;
  const search = samplesIn(SEARCH_MS);
  // Silence enough after the end that no frame or search looks past it.
  const source = new Float32Array(sound.length + 2 * (frame + search));
  source.set(sound);
  const out = new Float32Array(Math.round(sound.length * factor));
  let taken = 0;
  for (let to = 0; to < out.length; to += half) {
    // What would follow the last frame by itself; the frame near the due place that is most like it joins without a seam.
    if (to > 0) taken = mostAlike(source, taken + half, Math.round(to / factor), search, half);
    const length = Math.min(frame, out.length - to);
    for (let at = 0; at < length; at++) {
      // Half-overlapping raised cosines sum to one; the first half frame has no other beneath it.
      const window = to === 0 && at < half ? 1 : 0.5 - 0.5 * Math.cos((2 * Math.PI * at) / frame);
      out[to + at] = out[to + at]! + window * source[taken + at]!;
    }
  }
  return out;
}
