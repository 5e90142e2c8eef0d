import type { MachineKind } from './kinds.ts';
import type { Chance } from './random.ts';

/** Slips at the dial, by what they do to the cut. */
export type DialSlip = 'twice' | 'half' | 'ten-more' | 'ten-less' | 'turn-more' | 'turn-less';

const UM = 1_000;
const PER_K = 11.5e-6;
/** How well a tool is touched off, nm on the diameter. */
const TOUCH = 12 * UM;
const COOLING_MINUTES = 12;

/**
 * A lathe with a journal in it, as they really are: lengths in nm, diameters. The tool goes where the hand-wheel puts it, give or
 * take; the work springs away from the cut, heats up, and is cut at the size it has while warm.
 */
export class Lathe {
  readonly kind: MachineKind;
  readonly #chance: Chance;
  readonly #scale: number;
  readonly #taper: number;
  readonly #springs: number;
  /** Where the tool's edge is, as the diameter it would cut, without errors of the moment. */
  #edge: number;
  /** The journal in the middle at 20 °C, and its growth toward the free end. */
  #size: number;
  #grows = 0;
  #warmer = 0;
  #worn = 0;

  constructor(kind: MachineKind, size: number, chance: Chance) {
    this.kind = kind;
    this.#chance = chance;
    this.#scale = 1 + chance.normal(0, kind.scale);
    this.#taper = chance.normal(0, kind.taper) * UM;
    this.#springs = kind.spring * Math.exp(chance.normal(0, 0.35));
    this.#size = size;
    // The first cut is dialled from the size as it is, found by touching off.
    this.#edge = size + chance.normal(0, TOUCH);
  }

  /** The true size at 20 °C at a place from -0.5 (chuck) to 0.5 (free end). */
  at(place: number): number {
    return this.#size + this.#grows * place;
  }
  get warmer(): number {
    return this.#warmer;
  }
  /** What a perfect instrument would show now. */
  shows(place: number): number {
    return this.at(place) * (1 + PER_K * this.#warmer);
  }

  /** Nanometres on the diameter of one division. */
  get division(): number {
    return this.kind.dial.divisionUm * UM * (this.kind.dial.reads === 'radius' ? 2 : 1);
  }

  /** Time goes by; the work cools. */
  wait(minutes: number): void {
    this.#warmer *= Math.exp(-minutes / COOLING_MINUTES);
  }

  /** Turns the hand-wheel by so much on the diameter and takes a cut. `slack`: the backlash was not taken up. */
  cut(asked: number, slack: boolean): void {
    const { kind } = this;
    const chance = this.#chance;
    this.#edge -= asked * this.#scale;
    const lost = slack ? chance.uniform(0.1, 1) * kind.backlash * UM : 0;
    const set = chance.normal(0, kind.settingDivisions * this.division);
    // Lost motion is real only until the hand-wheel has turned through it once: the tool stands back for this cut alone.
    this.#worn += chance.uniform(0.5, 1.5) * kind.wear * UM;
    const reaches = this.#edge + lost + set + this.#worn - kind.growth * UM * chance.uniform(0, 1);
    const warm = 1 + PER_K * this.#warmer;
    const engaged = this.#size * warm - reaches;
    if (engaged > 0) {
      const taken = this.#takenOf(engaged);
      const noise = taken > 0 ? chance.normal(0, kind.slides * UM) : 0;
      this.#size = (this.#size * warm - taken - noise) / warm;
      if (taken > 0) this.#grows = this.#taper + 0.15 * this.#standing(taken);
      this.#warmer += (kind.warming * taken) / 1e6;
    }
    this.wait(2);
  }

  /** Backs the tool off and brings it up until it just touches. */
  touchOff(): void {
    this.#edge = this.#size * (1 + PER_K * this.#warmer) - this.#worn + this.#chance.normal(0, TOUCH);
  }

  /** Metal filed or polished off, all along or at one end alone. */
  file(removed: number, where: 'chuck-end' | 'free-end' | 'all-along'): void {
    this.#size -= where === 'all-along' ? removed : removed / 2;
    if (where === 'free-end') this.#grows -= removed;
    if (where === 'chuck-end') this.#grows += removed;
    this.#warmer += 0.3;
    this.wait(1.5);
  }

  /** What a cut leaves standing, nm: a share of its depth that falls with depth (force goes as depth to the power of .85). */
  #standing(taken: number): number {
    return this.#springs * 500 * UM * (Math.max(taken, 0) / (500 * UM)) ** 0.85;
  }

  #takenOf(engaged: number): number {
    let taken = engaged;
    for (let step = 0; step < 12; step += 1) taken = engaged - this.#standing(taken);
    if (taken >= this.kind.rubsBelow * UM) return taken;
    // Thinner than the edge is sharp: it rubs, and takes some of it or nothing.
    return Math.max(taken, 0) * this.#chance.uniform(0, 1);
  }
}
