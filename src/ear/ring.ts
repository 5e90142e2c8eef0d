/** The last seconds of sound, kept in memory and nowhere else, each sample overwritten in its turn. */
export class Ring {
  readonly #kept: Float32Array;
  #written = 0;

  constructor(length: number) {
    this.#kept = new Float32Array(length);
  }

  /** Samples put in since the start; the newest has the number `written - 1`. */
  get written(): number {
    return this.#written;
  }

  push(samples: Float32Array): void {
    for (const sample of samples) {
      this.#kept[this.#written % this.#kept.length] = sample;
      this.#written += 1;
    }
  }

  /** The samples of these numbers, from the oldest that is still kept. */
  slice(from: number, to: number): Float32Array {
    const first = Math.max(0, this.#written - this.#kept.length, from);
    const last = Math.min(this.#written, to);
    const out = new Float32Array(Math.max(0, last - first));
    for (let index = 0; index < out.length; index += 1) out[index] = this.#kept[(first + index) % this.#kept.length]!;
    return out;
  }
}
