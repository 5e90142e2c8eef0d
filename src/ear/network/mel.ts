/**
 * The network's front end: log mel energies of 44 bands each 10 ms. The same sums as models/training/features.py, on which the
 * network was trained: frames of 400 samples (Hann, in the middle of 512), 32 bands from 60 to 3800 Hz and 12 from 3800 to
 * 7800 Hz on Slaney's mel scale with his weights, log10(energy + 1) + 2 of samples scaled to 16 bits.
 */
import { powerSpectrum } from './fourier.ts';

export const MEL_HOP = 160;
export const MEL_BANDS = 44;
/** Seconds from one frame to the next. */
export const FRAME_S = 0.01;
const RATE_HZ = 16_000;
const WINDOW = 400;
const SIZE = 512;
const BINS = SIZE / 2 + 1;
const LOW = { fromHz: 60, toHz: 3800, count: 32 } as const;
const HIGH = { fromHz: 3800, toHz: 7800, count: 12 } as const;

/** Slaney's scale: straight up to 1000 Hz, logarithmic above. Source: M. Slaney, Auditory Toolbox, 1998. */
const LOG_STEP = Math.log(6.4) / 27;
const toMel = (hz: number): number => (hz < 1000 ? (hz * 3) / 200 : 15 + Math.log(hz / 1000) / LOG_STEP);
const toHz = (mel: number): number => (mel < 15 ? (mel * 200) / 3 : 1000 * Math.exp((mel - 15) * LOG_STEP));

/** A triangle over the bins `first` and on; the area of each is alike. */
type Band = { readonly first: number; readonly weights: Float64Array };

/** Above this (in the shifted sound) the shift is given back bit by bit, so that the highest band stays within the sound. */
const KNEE_HZ = 6500;

/** Where a frequency lies for a voice whose resonances are `warp` times as high. */
function shifted(hz: number, warp: number): number {
  const knee = KNEE_HZ / Math.max(1, warp);
  const top = RATE_HZ / 2;
  return hz <= knee ? hz * warp : knee * warp + ((hz - knee) / (top - knee)) * (top - knee * warp);
}

function bands({ fromHz, toHz: upTo, count }: typeof LOW | typeof HIGH, warp: number): Band[] {
  const low = toMel(fromHz);
  const step = (toMel(upTo) - low) / (count + 1);
  const edges = Array.from({ length: count + 2 }, (_, at) => shifted(toHz(low + at * step), warp));
  return Array.from({ length: count }, (_, at) => {
    const [left, middle, right] = [edges[at]!, edges[at + 1]!, edges[at + 2]!];
    const first = Math.ceil((left * SIZE) / RATE_HZ);
    const last = Math.min(BINS - 1, Math.floor((right * SIZE) / RATE_HZ));
    const weights = new Float64Array(Math.max(0, last - first + 1));
    for (let bin = first; bin <= last; bin += 1) {
      const hz = (bin * RATE_HZ) / SIZE;
      const height = Math.min((hz - left) / (middle - left), (right - hz) / (right - middle));
      weights[bin - first] = (Math.max(0, height) * 2) / (right - left);
    }
    return { first, weights };
  });
}

const allBands = (warp: number): readonly Band[] => [...bands(LOW, warp), ...bands(HIGH, warp)];
const BANDS = allBands(1);

const HANN = new Float64Array(SIZE);
for (let at = 0; at < WINDOW; at += 1) HANN[(SIZE - WINDOW) / 2 + at] = 0.5 - 0.5 * Math.cos((2 * Math.PI * at) / WINDOW);

/** How many whole frames these samples hold. */
export const melFrames = (samples: number): number => Math.max(0, 1 + Math.floor((samples - SIZE) / MEL_HOP));

/**
 * The same mels with so many frames of the sound's own quiet before and after: in training every word had silence at both ends,
 * and one that is cut off at the very end of a recording was heard as no word at all. The quiet of a band is its lowest tenth.
 */
export function withQuietEnds(mels: Float32Array, ends: number): Float32Array {
  const frames = mels.length / MEL_BANDS;
  const whole = new Float32Array((frames + 2 * ends) * MEL_BANDS);
  whole.set(mels, ends * MEL_BANDS);
  for (let band = 0; band < MEL_BANDS; band += 1) {
    const levels = Float32Array.from({ length: frames }, (_, at) => mels[at * MEL_BANDS + band]!).sort();
    const quiet = levels[Math.floor((frames - 1) / 10)]!;
    for (let at = 0; at < ends; at += 1) {
      whole[at * MEL_BANDS + band] = quiet;
      whole[(frames + ends + at) * MEL_BANDS + band] = quiet;
    }
  }
  return whole;
}

/**
 * The mels of an utterance, frame after frame. Samples are -1 to 1 at 16 kHz. `warp` moves the bands up for a voice with a
 * shorter
 * vocal tract, down for a longer one; 1 is what training heard.
 */
export function logMels(samples: Float32Array, warp = 1): Float32Array {
  const used = warp === 1 ? BANDS : allBands(warp);
  const frames = melFrames(samples.length);
  const mels = new Float32Array(frames * MEL_BANDS);
  const frame = new Float64Array(SIZE);
  const power = new Float64Array(BINS);
  for (let at = 0; at < frames; at += 1) {
    // The window's ends are nought, and rounding to whole 16-bit steps is what training heard.
    for (let n = 0; n < SIZE; n += 1) frame[n] = HANN[n]! * Math.round(samples[at * MEL_HOP + n]! * 32_768);
    powerSpectrum(frame, power);
    used.forEach(({ first, weights }, band) => {
      let energy = 0;
      for (let bin = 0; bin < weights.length; bin += 1) energy += weights[bin]! * power[first + bin]!;
      mels[at * MEL_BANDS + band] = Math.log10(energy + 1) + 2;
    });
  }
  return mels;
}
