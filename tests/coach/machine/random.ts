/** Chance from a seed: uniform, normal, and a coin, the same on every run (mulberry32, a public-domain generator). */
export type Chance = {
  readonly uniform: (low: number, high: number) => number;
  readonly normal: (mean: number, spread: number) => number;
  readonly happens: (share: number) => boolean;
  readonly oneOf: <T>(items: readonly [T, ...T[]]) => T;
};

export function chanceFrom(seed: number): Chance {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  return {
    uniform: (low, high) => low + (high - low) * next(),
    // Box and Muller; the logarithm of nothing is kept away.
    normal: (mean, spread) => mean + spread * Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    happens: (share) => next() < share,
    oneOf: (items) => items[Math.floor(next() * items.length)] ?? items[0],
  };
}
