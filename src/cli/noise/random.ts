/** Numbers from 0 up to 1 that are the same for the same seed (mulberry32, public domain, T. Ettinger). */
export type Random = () => number;

export function seeded(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 0x1_0000_0000;
  };
}

export const between = (random: Random, low: number, high: number): number => low + (high - low) * random();

/** A seed of its own for each piece of work, however many there are. */
export const mixSeed = (seed: number, index: number): number =>
  (Math.imul(seed ^ 0x9e37_79b9, 0x85eb_ca6b) + Math.imul(index + 1, 0xc2b2_ae35)) >>> 0;
