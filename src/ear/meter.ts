import { FRAME_MS, levelDb, NOTHING_DB, quantile } from './level.ts';
import { EAR_RATE_HZ } from './resample.ts';

/** What the microphone delivers now. `tooLoud`: speech cannot stand out of the machine; `clipping`: it overloads. */
export type Level = { readonly rmsDb: number; readonly floorDb: number; readonly tooLoud: boolean; readonly clipping: boolean };

/** The noise floor is the level that a tenth of the last three seconds stays under: speech comes and goes, a machine does not. */
const FLOOR_SHARE = 0.1;
const FLOOR_FRAMES = 300;
/** Speech close to a microphone lies at -25 to -15; with a floor from here up it stands out by less than five decibels. */
const TOO_LOUD_DB = -28;
const FULL_SCALE = 0.985;
/** So many full samples in a tenth of a second are no accident. */
const CLIPPED_SAMPLES = 8;

/** Follows level, noise floor and overload of 16 kHz sound. State: the levels of the last three seconds. */
export class Meter {
  readonly #levels = new Float32Array(FLOOR_FRAMES).fill(NOTHING_DB);
  #filled = 0;
  #clipped = 0;
  #floorDb = NOTHING_DB;

  get floorDb(): number {
    return this.#floorDb;
  }

  /** Takes one frame of ten milliseconds and gives its level. */
  frame(samples: Float32Array): number {
    const level = levelDb(samples);
    this.#levels[this.#filled % FLOOR_FRAMES] = level;
    this.#filled += 1;
    for (const sample of samples) if (Math.abs(sample) >= FULL_SCALE) this.#clipped += 1;
    // The floor moves slowly; reading it ten times a second is plenty.
    if (this.#filled % 10 === 1)
      this.#floorDb = quantile(this.#levels.subarray(0, Math.min(this.#filled, FLOOR_FRAMES)), FLOOR_SHARE);
    return level;
  }

  /** The reading of the last tenth of a second; overload is counted anew after each reading. */
  read(): Level {
    const frames = Math.min(10, this.#filled);
    let power = 0;
    for (let back = 1; back <= frames; back += 1) power += 10 ** (this.#levels[(this.#filled - back) % FLOOR_FRAMES]! / 10);
    const clipping = this.#clipped >= CLIPPED_SAMPLES;
    this.#clipped = 0;
    return {
      rmsDb: frames === 0 ? NOTHING_DB : Math.max(NOTHING_DB, 10 * Math.log10(power / frames)),
      floorDb: this.#floorDb,
      tooLoud: this.#floorDb > TOO_LOUD_DB,
      clipping,
    };
  }
}

/** Samples of one frame at the ear's rate. */
export const FRAME_SAMPLES = (EAR_RATE_HZ * FRAME_MS) / 1000;
