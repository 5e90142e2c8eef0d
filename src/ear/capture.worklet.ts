/** What the audio thread offers; its global names are in no library of types that can stand beside the worker's. */
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;

/** Samples handed over at a time: 20 ms at 16 kHz, the first multiple of the audio thread's 128 from there on. */
const BATCH = 384;

/** The first message carries the port of the ear's worker; from then on the microphone goes straight there. */
class Capture extends AudioWorkletProcessor {
  #to: MessagePort | null = null;
  #batch = new Float32Array(BATCH);
  #filled = 0;

  constructor() {
    super();
    this.port.onmessage = ({ data }: MessageEvent<MessagePort>) => {
      this.#to = data;
    };
  }

  process(inputs: readonly (readonly Float32Array[])[]): boolean {
    const input = inputs[0]?.[0];
    if (input === undefined || this.#to === null) return true;
    this.#batch.set(input, this.#filled);
    this.#filled += input.length;
    if (this.#filled + input.length > BATCH) {
      // A typed array's buffer is handed over and not copied, so each batch is a new one; the old one is the worker's.
      const full = this.#batch.slice(0, this.#filled);
      this.#to.postMessage(full, [full.buffer]);
      this.#filled = 0;
    }
    return true;
  }
}

registerProcessor('swarfside-capture', Capture);
