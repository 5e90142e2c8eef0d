/** Pseudo-random whole numbers below a bound, the same for the same seed on every machine: 32-bit xorshift (Marsaglia, 2003). */
export function seeded(seed: number): (below: number) => number {
  let state = seed | 0 || 1;
  return (below) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
}
