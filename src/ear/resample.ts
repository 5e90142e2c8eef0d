import { assert } from '../measure/index.ts';

/** The rate that every recogniser here takes. */
export const EAR_RATE_HZ = 16_000;

/** Zero crossings of the sinc on each side; with the window below the stop band lies 80 dB down (measured in the tests). */
const CROSSINGS = 32;
/** Kaiser's shape for an 80 dB stop band: 0.1102 (A - 8.7), Oppenheim and Schafer, "Discrete-Time Signal Processing". */
const KAISER_BETA = 0.1102 * (80 - 8.7);
/** Where the pass band ends, as a share of the lower Nyquist rate, so that the skirt is down before it folds back. */
const PASS = 0.92;
/** Positions between two input samples for which the kernel is worked out ahead. */
const PHASES_LIMIT = 2048;

/** Modified Bessel function of the first kind, order zero, by its power series. */
function bessel0(x: number): number {
  let term = 1;
  let sum = 1;
  for (let k = 1; term > sum * 1e-12; k += 1) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}

/**
 * A band-limited change of rate for sound that comes in pieces: a windowed-sinc filter, one kernel a phase. `push` gives what
 * can be given so far, `flush` the rest; the output is aligned with the input (no delay is added) and as long.
 * State: the input samples that later outputs still need.
 */
export class Resampler {
  readonly #up: number;
  readonly #down: number;
  readonly #half: number;
  readonly #kernels: Float32Array[];
  /** Input kept, and how many input samples lie before it. Starts with silence so that the first output is centred. */
  #kept: Float32Array;
  #before: number;
  #produced = 0;
  #consumed = 0;

  constructor(fromHz: number, toHz: number) {
    assert(Number.isInteger(fromHz) && Number.isInteger(toHz) && fromHz > 0 && toHz > 0, 'rates are whole numbers of hertz');
    const common = greatestCommonDivisor(fromHz, toHz);
    this.#up = toHz / common;
    this.#down = fromHz / common;
    assert(this.#up <= PHASES_LIMIT, `a change from ${fromHz} to ${toHz} Hz needs too many kernels`);
    const cutoff = PASS * Math.min(1, toHz / fromHz);
    this.#half = Math.ceil(CROSSINGS / cutoff);
    this.#kernels = Array.from({ length: this.#up }, (_, phase) => kernel(phase / this.#up, cutoff, this.#half));
    this.#kept = new Float32Array(this.#half);
    this.#before = -this.#half;
  }

  push(samples: Float32Array): Float32Array {
    this.#consumed += samples.length;
    return this.#take(samples, this.#consumed - this.#half);
  }

  flush(): Float32Array {
    return this.#take(new Float32Array(this.#half + 1), this.#consumed);
  }

  /** Outputs whose centre lies before input sample `end`. */
  #take(samples: Float32Array, end: number): Float32Array {
    const input = new Float32Array(this.#kept.length + samples.length);
    input.set(this.#kept);
    input.set(samples, this.#kept.length);
    const last = Math.ceil((end * this.#up) / this.#down);
    const out = new Float32Array(Math.max(0, last - this.#produced));
    for (let index = 0; index < out.length; index += 1) {
      const position = (this.#produced + index) * this.#down;
      const whole = Math.floor(position / this.#up);
      const weights = this.#kernels[position % this.#up]!;
      const from = whole - this.#half + 1 - this.#before;
      let sum = 0;
      for (let tap = 0; tap < weights.length; tap += 1) sum += weights[tap]! * input[from + tap]!;
      out[index] = sum;
    }
    this.#produced += out.length;
    const needed = Math.floor((this.#produced * this.#down) / this.#up) - this.#half + 1;
    const drop = Math.max(0, Math.min(input.length, needed - this.#before));
    this.#kept = input.slice(drop);
    this.#before += drop;
    return out;
  }
}

/** Weights for an output that lies `offset` (0 to 1) past an input sample, normalised to pass a steady level unchanged. */
function kernel(offset: number, cutoff: number, half: number): Float32Array {
  const weights = new Float32Array(2 * half);
  let total = 0;
  for (let tap = 0; tap < weights.length; tap += 1) {
    const x = tap - half + 1 - offset;
    const angle = Math.PI * cutoff * x;
    const sinc = x === 0 ? 1 : Math.sin(angle) / angle;
    const window = bessel0(KAISER_BETA * Math.sqrt(Math.max(0, 1 - (x / half) ** 2))) / bessel0(KAISER_BETA);
    weights[tap] = sinc * window;
    total += weights[tap]!;
  }
  return weights.map((weight) => weight / total);
}

/** A whole sound at another rate. */
export function resample(samples: Float32Array, fromHz: number, toHz: number = EAR_RATE_HZ): Float32Array {
  if (fromHz === toHz) return samples;
  const resampler = new Resampler(fromHz, toHz);
  const head = resampler.push(samples);
  const tail = resampler.flush();
  const out = new Float32Array(head.length + tail.length);
  out.set(head);
  out.set(tail, head.length);
  return out;
}
