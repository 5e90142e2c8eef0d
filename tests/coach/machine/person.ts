import { asLength } from '../../../src/trade/index.ts';
import { INSTRUMENTS, type Length } from '../../../src/measure/index.ts';
import type { DialSlip, Lathe } from './lathe.ts';
import type { Chance } from './random.ts';

/** Slips with an instrument. */
export type ReadingSlip = 'thimble-turn' | 'before-the-cut' | 'wrong-place';
/** All that can go wrong at a journal beside the errors of machine and instruments; `slack` is backlash not taken up. */
export type SlipKind = DialSlip | ReadingSlip | 'slack' | 'warm';

/**
 * How often a slip happens: .003 a reading of a scale, .001 a dial set wrong and .003 a habitual step left out (backlash not
 * taken up) are the basic figures of the handbook of human reliability NUREG/CR-1278 (Swain and Guttmann), from memory.
 */
export const SLIP_RATES = { reading: 0.003, dial: 0.001, slack: 0.003 } as const;

const FEEL_NM = { caliper: 6_000, micrometer: 1_300 } as const;
export type Tool = keyof typeof FEEL_NM;

/** The person at the lathe: hands, eyes, instruments. Counts what is done and remembers every slip. */
export class Person {
  readonly slips: SlipKind[] = [];
  cuts = 0;
  readings = 0;
  rounds = 0;
  readonly #chance: Chance;
  readonly #lathe: Lathe;
  readonly #errs: Readonly<Record<Tool, number>>;
  readonly #fileRate: number;
  #shownBefore: number;

  constructor(lathe: Lathe, chance: Chance) {
    this.#lathe = lathe;
    this.#chance = chance;
    const within = (tool: Tool): number => {
      const limit = INSTRUMENTS[tool].permissibleError(asLength(lathe.at(0), 'half-even'));
      return chance.uniform(-limit, limit);
    };
    this.#errs = { caliper: within('caliper'), micrometer: within('micrometer') };
    // From cloth to cloth, about a factor of two either way.
    this.#fileRate = 2_800 * Math.exp(chance.normal(0, 0.35));
    this.#shownBefore = lathe.shows(0);
  }

  /** Dials and cuts. A slip at the dial is made without noticing. */
  cut(asked: number): void {
    this.cuts += 1;
    this.#shownBefore = this.#lathe.shows(0);
    let dialled = asked;
    if (this.#chance.happens(SLIP_RATES.dial)) {
      const slip = this.#chance.oneOf<DialSlip>(['twice', 'half', 'ten-more', 'ten-less', 'turn-more', 'turn-less']);
      this.slips.push(slip);
      const { division } = this.#lathe;
      const turn = division * this.#lathe.kind.dial.perTurn;
      dialled = {
        twice: 2 * asked,
        half: asked / 2,
        'ten-more': asked + 10 * division,
        'ten-less': asked - 10 * division,
        'turn-more': asked + turn,
        'turn-less': asked - turn,
      }[slip];
    }
    // A cut far deeper than the lathe can take is felt at the end face: backed out, and dialled right.
    if (dialled > 1_500 * this.#lathe.kind.deepest && dialled > 1.5 * asked) {
      this.cuts += 1;
      dialled = asked;
    }
    const slack = this.#chance.happens(SLIP_RATES.slack);
    if (slack && this.#lathe.kind.backlash > 0) this.slips.push('slack');
    this.#lathe.cut(dialled, slack);
  }

  /** Reads the size with an instrument at a place, rounded to its step. */
  read(tool: Tool, place: number): Length {
    this.readings += 1;
    const { resolution } = INSTRUMENTS[tool];
    let shown = this.#lathe.shows(place) + this.#errs[tool] + this.#chance.normal(0, FEEL_NM[tool]);
    if (this.#chance.happens(SLIP_RATES.reading)) {
      const slip = this.#chance.oneOf<ReadingSlip>(['thimble-turn', 'before-the-cut', 'wrong-place']);
      this.slips.push(slip);
      const round = tool === 'micrometer' ? 635_000 : 2_540_000;
      if (slip === 'thimble-turn') shown += this.#chance.oneOf([round, -round]);
      if (slip === 'before-the-cut') shown = this.#shownBefore + this.#errs[tool];
      if (slip === 'wrong-place') shown += this.#chance.uniform(8_000, 80_000);
    }
    return asLength(Math.round(shown / resolution) * resolution, 'half-even');
  }

  /** Lets the work cool; some do not wait. */
  cool(willing: boolean): void {
    if (willing) this.#lathe.wait(25);
  }

  /** Notes that the work was measured warm where the other rule or a shortcut did. */
  noteWarm(): void {
    if (this.#lathe.warmer > 5 && !this.slips.includes('warm')) this.slips.push('warm');
  }

  /** So many rounds with file or cloth. */
  file(rounds: number, where: 'chuck-end' | 'free-end' | 'all-along'): void {
    for (let round = 0; round < rounds; round += 1) {
      this.rounds += 1;
      this.#lathe.file(Math.max(0, this.#fileRate * (1 + this.#chance.normal(0, 0.35))), where);
    }
  }
}
