/** Pseudo-random whole numbers below a bound: 32-bit xorshift (Marsaglia, 2003), the same for the same seed. */
export function random(seed: number): (below: number) => number {
  let state = seed | 0 || 1;
  return (below) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
}
