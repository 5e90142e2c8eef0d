import { samplesIn, type Sound } from './sound.ts';

const FRAME_MS = 30;
/** How far a frame may be moved to fall in with the wave before it: most of one period of the lowest voice (about 100 Hz). */
const SEARCH_MS = 9;

/** How alike the wave is at two places, over `length` samples: their product, by the size of the second. */
function likeness(sound: Sound, wanted: number, tried: number, length: number): number {
  let product = 0;
  let power = 1e-9;
  for (let at = 0; at < length; at++) {
    const other = sound[tried + at] ?? 0;
    product += (sound[wanted + at] ?? 0) * other;
    power += other * other;
  }
  return product / Math.sqrt(power);
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
  const out = new Float32Array(Math.round(sound.length * factor));
  let taken = 0;
  for (let to = 0; to < out.length; to += half) {
    if (to > 0) {
      // What would follow the last frame by itself; the frame near the due place that is most like it joins without a seam.
      const follows = taken + half;
      const due = Math.round(to / factor);
      let best = due;
      let most = -Infinity;
      for (let tried = Math.max(0, due - search); tried <= due + search; tried++) {
        const alike = likeness(sound, follows, tried, half);
        if (alike > most) {
          most = alike;
          best = tried;
        }
      }
      taken = best;
    }
    for (let at = 0; at < frame && to + at < out.length; at++) {
      // Half-overlapping raised cosines sum to one; the first half frame has no other beneath it.
      const window = to === 0 && at < half ? 1 : 0.5 - 0.5 * Math.cos((2 * Math.PI * at) / frame);
      out[to + at] = out[to + at]! + window * (sound[taken + at] ?? 0);
    }
  }
  return out;
}
