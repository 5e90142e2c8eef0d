import { assert } from '../measure/index.ts';

/**
 * IMA ADPCM: 16-bit samples in 4 bits each, so that a clip can be decoded alone, to the sample, alike in every browser.
 * Each clip starts from predictor 0 and step 0; the low nibble of a byte comes first.
 * Source: IMA Digital Audio Focus and Technical Working Groups, "Recommended Practices for Enhancing Digital Audio
 * Compatibility in Multimedia Systems", revision 3.00, 1992 (the step and index tables and both routines).
 */
const STEPS: readonly number[] = [
  7, 8, 9, 10, 11, 12, 13, 14, 16, 17, 19, 21, 23, 25, 28, 31, 34, 37, 41, 45, 50, 55, 60, 66, 73, 80, 88, 97, 107, 118, 130,
  143, 157, 173, 190, 209, 230, 253, 279, 307, 337, 371, 408, 449, 494, 544, 598, 658, 724, 796, 876, 963, 1060, 1166, 1282,
  1411, 1552, 1707, 1878, 2066, 2272, 2499, 2749, 3024, 3327, 3660, 4026, 4428, 4871, 5358, 5894, 6484, 7132, 7845, 8630,
  9493, 10442, 11487, 12635, 13899, 15289, 16818, 18500, 20350, 22385, 24623, 27086, 29794, 32767,
];
const INDEX_SHIFTS: readonly number[] = [-1, -1, -1, -1, 2, 4, 6, 8];

const SIGN = 8;
const FULL_SCALE = 32_768;

type Predictor = { sample: number; index: number };

const stepOf = (predictor: Predictor): number => STEPS[predictor.index]!;

/** Moves the predictor by one code, exactly as the decoder does, and returns the new sample. */
function advance(predictor: Predictor, code: number): number {
  const step = stepOf(predictor);
  let change = step >> 3;
  if (code & 4) change += step;
  if (code & 2) change += step >> 1;
  if (code & 1) change += step >> 2;
  const moved = code & SIGN ? predictor.sample - change : predictor.sample + change;
  predictor.sample = Math.max(-FULL_SCALE, Math.min(FULL_SCALE - 1, moved));
  predictor.index = Math.max(0, Math.min(STEPS.length - 1, predictor.index + INDEX_SHIFTS[code & 7]!));
  return predictor.sample;
}

function codeFor(predictor: Predictor, wanted: number): number {
  let rest = wanted - predictor.sample;
  let code = 0;
  if (rest < 0) {
    code = SIGN;
    rest = -rest;
  }
  let step = stepOf(predictor);
  for (const bit of [4, 2, 1]) {
    if (rest >= step) {
      code |= bit;
      rest -= step;
    }
    step >>= 1;
  }
  return code;
}

/** Bytes that so many samples take. */
export const adpcmBytes = (samples: number): number => Math.ceil(samples / 2);

/** Sound from -1 to 1 (clipped outside) to `adpcmBytes(sound.length)` bytes. */
export function encodeAdpcm(sound: Float32Array): Uint8Array {
  const bytes = new Uint8Array(adpcmBytes(sound.length));
  const predictor: Predictor = { sample: 0, index: 0 };
  sound.forEach((value, at) => {
    const wanted = Math.max(-FULL_SCALE, Math.min(FULL_SCALE - 1, Math.round(value * FULL_SCALE)));
    const code = codeFor(predictor, wanted);
    advance(predictor, code);
    const byte = at >> 1;
    bytes[byte] = bytes[byte]! | (at & 1 ? code << 4 : code);
  });
  return bytes;
}

/** The first `samples` samples of one clip's bytes. */
export function decodeAdpcm(bytes: Uint8Array, samples: number): Float32Array {
  assert(bytes.length >= adpcmBytes(samples), 'a clip has a nibble for every sample');
  const sound = new Float32Array(samples);
  const predictor: Predictor = { sample: 0, index: 0 };
  for (let at = 0; at < samples; at++) {
    const byte = bytes[at >> 1]!;
    sound[at] = advance(predictor, at & 1 ? byte >> 4 : byte & 15) / FULL_SCALE;
  }
  return sound;
}
