import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  accepts,
  earSettingsIn,
  FIRST_EAR_SETTINGS,
  fitPersonal,
  SETUP_PHRASES,
  WARPS,
  wordGraph,
  type Take,
} from '../../src/ear/index.ts';
import { fullGrammar } from '../../src/phrasebook/index.ts';

const graph = wordGraph(fullGrammar);

/** A take whose phrase fits best at `best` and comes out right there alone. */
const take = (best: number, odds: number): Take => ({
  said: 'next',
  heard: 'next',
  levelDb: -20,
  views: WARPS.map((warp) => ({ warp, fits: -Math.abs(warp - best), right: warp === best, odds: warp === best ? odds : -3 })),
});
const times = <T>(count: number, make: (at: number) => T): T[] => Array.from({ length: count }, (_, at) => make(at));

describe('a set-up for one voice', () => {
  it.each(SETUP_PHRASES.map((phrase) => [phrase]))('"%s" is a phrase of the phrasebook', (phrase) => {
    expect(accepts(graph, phrase.split(' '))).toBe(true);
  });

  it('finds the shift that a voice needs, and counts what it gained', () => {
    const personal = fitPersonal(
      times(20, () => take(1.16, 2)),
      0.4,
    );
    expect(personal).toMatchObject({ warp: 1.16, phrases: 20, before: 0, after: 20, speechDb: -20 });
  });

  it('leaves the shift alone where it is as good as any', () => {
    const flat = take(1, 2).views.map((view) => ({ ...view, fits: -0.5 }));
    expect(
      fitPersonal(
        times(20, () => ({ ...take(1, 2), views: flat })),
        0.4,
      ).warp,
    ).toBe(1);
  });

  it('raises the odds of a voice that is right and doubted, and lowers those of one that is wrong and believed', () => {
    expect(
      fitPersonal(
        times(20, () => take(1, -1)),
        0.4,
      ).bias,
    ).toBe(1);
    const wrong = times(20, () => ({
      ...take(1, 0),
      views: take(1, 0).views.map((view) => ({ ...view, right: false, odds: 3 })),
    }));
    expect(fitPersonal(wrong, 0.4).bias).toBe(-2);
  });

  it('is never counted as more than was said, and stays within its bounds (seed 21)', () => {
    const view = fc.record({
      fits: fc.double({ min: -5, max: 0, noNaN: true }),
      right: fc.boolean(),
      odds: fc.double({ min: -9, max: 9, noNaN: true }),
    });
    const takes = fc.array(fc.array(view, { minLength: WARPS.length, maxLength: WARPS.length }), { minLength: 2, maxLength: 20 });
    fc.assert(
      fc.property(takes, (drawn) => {
        const personal = fitPersonal(
          drawn.map((views) => ({
            said: 'next',
            heard: '',
            levelDb: -30,
            views: views.map((each, at) => ({ ...each, warp: WARPS[at]! })),
          })),
          0.4,
        );
        expect(WARPS).toContain(personal.warp);
        expect(personal.bias).toBeGreaterThanOrEqual(-2);
        expect(personal.bias).toBeLessThanOrEqual(1);
        expect(Math.max(personal.before, personal.after)).toBeLessThanOrEqual(drawn.length);
      }),
      { seed: 21 },
    );
  });
});

describe('the settings of the ear', () => {
  const storage = (text: string | null): Pick<Storage, 'getItem' | 'setItem'> & { text: string | null } => ({
    text,
    getItem() {
      return this.text;
    },
    setItem(_key, value) {
      this.text = value;
    },
  });

  it('come back as they were kept', () => {
    const kept = storage(null);
    const personal = fitPersonal(
      times(8, () => take(1.08, 2)),
      0.4,
    );
    const settings = { ...FIRST_EAR_SETTINGS, callName: 'Foreman', headset: true, personal } as const;
    earSettingsIn(kept).write(settings);
    expect(earSettingsIn(kept).read()).toEqual(settings);
  });

  it.each([[null], ['{'], ['{"callName":"Bob"}'], ['[]']])('%s gives the first settings', (text) => {
    expect(earSettingsIn(storage(text)).read()).toEqual(FIRST_EAR_SETTINGS);
  });

  it('a store that refuses loses the setting and nothing else', () => {
    const refusing = {
      getItem: () => null,
      setItem: () => {
        throw new Error('full');
      },
    };
    expect(() => earSettingsIn(refusing).write(FIRST_EAR_SETTINGS)).not.toThrow();
  });
});
