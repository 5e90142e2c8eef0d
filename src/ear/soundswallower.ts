import { cachedWordGraph } from './graph-cache.ts';
import type { ModelFiles } from './manifest.ts';
import { phoneLoop } from './phone-loop.ts';
import { EngineFault, type Hypothesis, type Recogniser } from './recogniser.ts';
import { judge } from './rejection.ts';
import { SoundswallowerDecoder } from './soundswallower-decoder.ts';
import { LentFiles, openRuntime } from './soundswallower-runtime.ts';
import { LOOP_SEARCH, WORD_SEARCH } from './tuning.ts';

/**
 * The packaged recogniser: Gaussian mixtures over the phrases of the grammar, and a loop of phones beside it that tells how well
 * any speech at all would explain the sound. An utterance is decoded whole at its end, since its mean is only known then
 * (docs/ear.md gives what decoding as it comes would lose).
 */
export async function openSoundswallower(files: ModelFiles): Promise<Recogniser> {
  const runtime = await openRuntime();
  const lent = new LentFiles(runtime, files);
  const words = new SoundswallowerDecoder(runtime, lent, WORD_SEARCH);
  const loop = new SoundswallowerDecoder(runtime, lent, LOOP_SEARCH);
  loop.setGraph('phones', phoneLoop());
  let set: string | null = null;
  let heard: Float32Array[] | null = null;

  return {
    name: 'soundswallower',
    open(grammar) {
      return new Promise((resolve) => {
        if (set !== grammar.key) {
          set = null;
          words.setGraph(grammar.key, cachedWordGraph(grammar));
          set = grammar.key;
        }
        heard = [];
        resolve();
      });
    },
    accept(samples) {
      if (heard === null) throw new EngineFault('decoder', 'sound came before an utterance was opened');
      heard.push(samples);
    },
    finish() {
      return new Promise<Hypothesis>((resolve) => {
        if (heard === null) throw new EngineFault('decoder', 'an utterance was finished that was not opened');
        const samples = joined(heard);
        heard = null;
        resolve(judge({ samples, words: words.decode(samples), loop: loop.decode(samples) }));
      });
    },
    close() {
      words.close();
      loop.close();
      heard = null;
    },
  };
}

/** Pieces of sound as one. */
export function joined(pieces: readonly Float32Array[]): Float32Array {
  const whole = new Float32Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
