import { millimetres, type Length } from '../../../src/measure/index.ts';
import { toleranceOf } from '../../../src/trade/index.ts';
import type { SizeWindow } from '../../../src/route/index.ts';
import { Lathe } from './lathe.ts';
import { MACHINE_KINDS, type MachineKind } from './kinds.ts';
import { Person, type SlipKind } from './person.ts';
import { chanceFrom } from './random.ts';

/** A journal to be turned: the machine and person of its seed, the window, and the size that it starts at. */
export type Journal = {
  readonly kind: MachineKind;
  readonly lathe: Lathe;
  readonly person: Person;
  readonly window: SizeWindow;
  readonly from: Length;
  /** Whether this person waits for warm work to cool when asked to, and by themselves. */
  readonly waits: boolean;
  readonly waitsUnasked: boolean;
};

export type Verdict = 'accepted' | 'undecided' | 'given-up';

/** How a journal ended. Sizes are true, at both ends, at 20 °C. */
export type Outcome = {
  readonly kind: string;
  readonly verdict: Verdict;
  readonly inWindow: boolean;
  readonly under: boolean;
  readonly over: boolean;
  readonly cuts: number;
  readonly readings: number;
  readonly rounds: number;
  readonly slips: readonly SlipKind[];
};

/**
 * The journal of a seed: 8 to 60 mm across, IT7, IT8 or IT9 (ISO 286-1) wide, 1 to 4 mm to come off. Machine, instruments and
 * slips come from the seed too: two rules meet the same lathe and the same hands, though not the same luck from cut to cut.
 */
export function journalOf(seed: number): Journal {
  const chance = chanceFrom(seed * 7_919 + 17);
  const kind = MACHINE_KINDS[seed % MACHINE_KINDS.length] ?? MACHINE_KINDS[0];
  if (kind === undefined) throw new Error('there are machines');
  const aim = millimetres(Math.round(8 * (60 / 8) ** chance.uniform(0, 1) * 1000) / 1000);
  const tolerance = toleranceOf(aim, chance.oneOf([7, 8, 9]));
  if (!tolerance.ok) throw new Error(tolerance.error.key);
  const half = Math.round(tolerance.value / 2);
  const window: SizeWindow = { low: (aim - half) as Length, high: (aim + half) as Length, aim };
  const stands = millimetres(chance.uniform(1, 4));
  const from = (aim + stands) as Length;
  const lathe = new Lathe(kind, from + chance.normal(0, 30_000), chance);
  const person = new Person(lathe, chance);
  return { kind, lathe, person, window, from, waits: !chance.happens(0.1), waitsUnasked: chance.happens(0.5) };
}

/** What became of a journal. */
export function outcomeOf({ kind, lathe, person, window }: Journal, verdict: Verdict): Outcome {
  const ends = [lathe.at(-0.5), lathe.at(0.5)];
  const under = Math.min(...ends) < window.low;
  const over = Math.max(...ends) > window.high;
  const { cuts, readings, rounds, slips } = person;
  return { kind: kind.name, verdict, inWindow: !under && !over, under, over, cuts, readings, rounds, slips };
}
