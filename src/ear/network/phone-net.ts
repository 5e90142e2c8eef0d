import { EngineFault } from '../recogniser.ts';
import { MEL_BANDS } from './mel.ts';
import type { PhoneScores } from './viterbi.ts';

/** Frames of padding that the network wants at each end, and how many frames make one step of its output pair. */
const PAD = 36;
const FRAMES_A_GRAIN = 4;
const CLASSES = 40;

/** Seconds between the steps of the output. */
export const STEP_S = 0.02;

/** What hears phones in mels; the frames need not be a multiple of anything. */
export type PhoneNet = { readonly hear: (mels: Float32Array) => Promise<PhoneScores>; readonly close: () => Promise<void> };

/** Where the runtime finds its WebAssembly: a URL in a page; null leaves it to look beside its own script, as in Node. */
export type RuntimeAt = { readonly wasmUrl: string | null };

/** Loads the network. One thread, no cross-origin isolation needed. Throws `EngineFault` when the file is not a network. */
export async function openPhoneNet(model: Uint8Array, { wasmUrl }: RuntimeAt): Promise<PhoneNet> {
  const ort = await import('onnxruntime-web/wasm');
  ort.env.wasm.numThreads = 1;
  if (wasmUrl !== null) ort.env.wasm.wasmPaths = { wasm: wasmUrl };
  let session: Awaited<ReturnType<typeof ort.InferenceSession.create>>;
  try {
    session = await ort.InferenceSession.create(model, { executionProviders: ['wasm'], graphOptimizationLevel: 'all' });
  } catch (cause) {
    throw new EngineFault('model', 'the network could not be loaded', { cause });
  }
  return {
    async hear(mels) {
      const padded = pad(mels);
      const input = new ort.Tensor('float32', padded, [1, padded.length / MEL_BANDS, MEL_BANDS]);
      const { phones } = await session.run({ mels: input });
      if (phones === undefined || !(phones.data instanceof Float32Array)) throw new EngineFault('model', 'the network gave no phones');
      return { log: phones.data, steps: phones.data.length / CLASSES, classes: CLASSES };
    },
    close: () => session.release(),
  };
}

/** The first and last frames said over again at the ends, up to a whole number of grains. */
function pad(mels: Float32Array): Float32Array {
  const frames = mels.length / MEL_BANDS;
  const whole = Math.ceil(frames / FRAMES_A_GRAIN) * FRAMES_A_GRAIN;
  const padded = new Float32Array((whole + 2 * PAD) * MEL_BANDS);
  for (let at = 0; at < whole + 2 * PAD; at += 1) {
    const from = Math.min(Math.max(at - PAD, 0), frames - 1) * MEL_BANDS;
    padded.set(mels.subarray(from, from + MEL_BANDS), at * MEL_BANDS);
  }
  return padded;
}
