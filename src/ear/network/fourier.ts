import { assert } from '../../measure/index.ts';

const plans = new Map<number, { readonly cosine: Float64Array; readonly sine: Float64Array; readonly order: Uint16Array }>();

function planFor(size: number): NonNullable<ReturnType<typeof plans.get>> {
  const known = plans.get(size);
  if (known !== undefined) return known;
  assert(size >= 4 && size <= 65_536 && (size & (size - 1)) === 0, `a transform of ${size} samples is a power of two`);
  const bits = Math.log2(size);
  const order = new Uint16Array(size);
  for (let at = 0; at < size; at += 1) {
    let turned = 0;
    for (let bit = 0; bit < bits; bit += 1) turned |= ((at >> bit) & 1) << (bits - 1 - bit);
    order[at] = turned;
  }
  const cosine = Float64Array.from({ length: size / 2 }, (_, k) => Math.cos((2 * Math.PI * k) / size));
  const sine = Float64Array.from({ length: size / 2 }, (_, k) => -Math.sin((2 * Math.PI * k) / size));
  const plan = { cosine, sine, order };
  plans.set(size, plan);
  return plan;
}

/** The squared magnitudes of the first half of the spectrum and its middle: `power` has half the samples and one. */
export function powerSpectrum(samples: Float64Array, power: Float64Array): void {
  const size = samples.length;
  const { cosine, sine, order } = planFor(size);
  const real = new Float64Array(size);
  const imaginary = new Float64Array(size);
  for (let at = 0; at < size; at += 1) real[order[at]!] = samples[at]!;
  for (let half = 1; half < size; half *= 2) {
    const stride = size / (2 * half);
    for (let start = 0; start < size; start += 2 * half) {
      for (let k = 0; k < half; k += 1) {
        const even = start + k;
        const odd = even + half;
        const [c, s] = [cosine[k * stride]!, sine[k * stride]!];
        const re = real[odd]! * c - imaginary[odd]! * s;
        const im = real[odd]! * s + imaginary[odd]! * c;
        real[odd] = real[even]! - re;
        imaginary[odd] = imaginary[even]! - im;
        real[even] = real[even]! + re;
        imaginary[even] = imaginary[even]! + im;
      }
    }
  }
  for (let bin = 0; bin <= size / 2; bin += 1) power[bin] = real[bin]! ** 2 + imaginary[bin]! ** 2;
}
