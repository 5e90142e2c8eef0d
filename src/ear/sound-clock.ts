import { FRAME_MS } from './level.ts';

/** The clocks of sound and page differ by far less than this, and a gap in the sound is made up for in half a minute. */
const DRIFT = 0.002;

/**
 * When a frame sounded, on the page's clock. Sound comes in after it was heard, later still when the thread was busy; the least
 * delay that was seen is taken for the true one, so that work on a hypothesis is not mistaken for speech.
 */
export class SoundClock {
  #zeroAt: number | null = null;
  #noted = 0;

  /** All frames before `frame` are in, at this time. */
  note(frame: number, now: number): void {
    const zeroAt = now - frame * FRAME_MS;
    const drifted = this.#zeroAt === null ? zeroAt : this.#zeroAt + (frame - this.#noted) * FRAME_MS * DRIFT;
    this.#zeroAt = Math.min(drifted, zeroAt);
    this.#noted = frame;
  }

  /** When frame `frame` began; the time itself where no sound has come yet. */
  at(frame: number, now: number): number {
    return this.#zeroAt === null ? now : Math.min(now, this.#zeroAt + frame * FRAME_MS);
  }

  /** The sound starts anew, after a pause of any length. */
  restart(): void {
    this.#zeroAt = null;
  }
}
