import { describe, expect, it } from 'vitest';
import { clearanceFrom, type FitFeel } from '../../src/coach/index.ts';

const bore = { mean: 25_400_000, spread: 7_000 };
const shaft = (clearance: number) => ({ mean: bore.mean - clearance, spread: 2_000 });

describe('feel and numbers', () => {
  it('puts the feels in their order, whatever the numbers say', () => {
    const feels: readonly FitFeel[] = ['wont-start', 'tight', 'slides', 'loose'];
    const means = feels.map((feel) => clearanceFrom(bore, shaft(15_000), feel).clearance.mean);
    expect(means).toEqual([...means].sort((a, b) => a - b));
  });
  it('is surer than the numbers alone, and lies between them and the feel', () => {
    const { clearance, agree } = clearanceFrom(bore, shaft(15_000), 'tight');
    expect(clearance.spread).toBeLessThan(Math.hypot(7_000, 2_000));
    expect(clearance.mean).toBeGreaterThan(3_000);
    expect(clearance.mean).toBeLessThan(15_000);
    expect(agree).toBe(true);
  });
  it('says so where they contradict each other', () => {
    expect(clearanceFrom(bore, shaft(60_000), 'wont-start').agree).toBe(false);
  });
});
