import { EngineFault, type HeardWord } from './recogniser.ts';
import { give, readText, withText, type LentFiles, type Pointer, type Runtime } from './soundswallower-runtime.ts';
import type { WordGraph } from './word-graph.ts';

/** The recogniser's logarithm has this base (its `logbase`), and its path scores are kept 1024 times coarser. */
const LOG_BASE = Math.log(1.0001);
const SCORE_STEP = 1024 * LOG_BASE;

/** How the search weighs words against sound; the values in use are in `tuning.ts`, with what they were chosen on. */
export type SearchSettings = {
  /** How heavily the grammar's weights count against the sound. */
  readonly languageWeight: number;
  /** Natural logarithm of the price of each word. */
  readonly wordPenalty: number;
  readonly silence: number;
  readonly filler: number;
  readonly beam: number;
  readonly wordBeam: number;
};

/** The best path through the graph: its words, and its natural log score over all frames. */
export type Path = { readonly words: readonly HeardWord[]; readonly score: number; readonly frames: number };

const FRAME_S = 0.01;
const FILLER = /^[<[(]/u;

/** One decoder over one set of model files: a graph is set, whole utterances are decoded. */
export class SoundswallowerDecoder {
  readonly #runtime: Runtime;
  readonly #settings: SearchSettings;
  #decoder: Pointer;
  readonly #scratch: Pointer;

  constructor(runtime: Runtime, files: LentFiles, settings: SearchSettings) {
    this.#runtime = runtime;
    this.#settings = settings;
    this.#scratch = runtime._malloc(8);
    this.#decoder = createDecoder(runtime, files, settings);
  }

  /** Throws `EngineFault` where a word has no pronunciation. */
  setGraph(name: string, graph: WordGraph): void {
    const runtime = this.#runtime;
    const weight = this.#settings.languageWeight;
    const logOf = (cost: number): number => Math.round((-cost * weight) / LOG_BASE);
    // One state more than the graph has: the only one where a phrase ends.
    const end = graph.states.length;
    const fsg = withText(runtime, name, (at) =>
      runtime._fsg_model_init(at, runtime._decoder_logmath(this.#decoder), weight, end + 1),
    );
    const ids = new Map<string, number>();
    graph.states.forEach((state, from) => {
      if (state.exit !== null) runtime._fsg_model_null_trans_add(fsg, from, end, Math.min(0, logOf(state.exit)));
      for (const arc of state.arcs) {
        let id = ids.get(arc.word);
        if (id === undefined) ids.set(arc.word, (id = withText(runtime, arc.word, (at) => runtime._fsg_model_word_add(fsg, at))));
        runtime._fsg_model_trans_add(fsg, from, arc.to, logOf(arc.cost), id);
      }
    });
    runtime._fsg_set_states(fsg, 0, end);
    if (runtime._decoder_set_fsg(this.#decoder, fsg) < 0)
      throw new EngineFault('grammar', `the grammar "${name}" cannot be compiled: a word of it has no pronunciation`);
  }

  /** The best path for a whole utterance at 16 kHz; null where no phrase of the graph can be laid over it. */
  decode(samples: Float32Array): Path | null {
    const runtime = this.#runtime;
    const bytes = new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength);
    if (runtime._decoder_start_utt(this.#decoder) < 0)
      throw new EngineFault('decoder', 'the recogniser would not start an utterance');
    const at = give(runtime, bytes);
    const frames = runtime._decoder_process_float32(this.#decoder, at, samples.length, 0, 1);
    runtime._free(at);
    if (runtime._decoder_end_utt(this.#decoder) < 0 || frames < 0)
      throw new EngineFault('decoder', 'the recogniser failed in an utterance');
    if (runtime._decoder_hyp(this.#decoder, this.#scratch) === 0) return null;
    const score = runtime.HEAP_DATA_VIEW.getInt32(this.#scratch, true) * SCORE_STEP;
    return { words: this.#words(), score, frames };
  }

  #words(): HeardWord[] {
    const runtime = this.#runtime;
    const words: HeardWord[] = [];
    for (let segment = runtime._decoder_seg_iter(this.#decoder); segment !== 0; segment = runtime._seg_iter_next(segment)) {
      const word = readText(runtime, runtime._seg_iter_word(segment)).replace(/\(\d+\)$/u, '');
      if (FILLER.test(word)) continue;
      runtime._seg_iter_frames(segment, this.#scratch, this.#scratch + 4);
      const start = runtime.HEAP_DATA_VIEW.getInt32(this.#scratch, true);
      const end = runtime.HEAP_DATA_VIEW.getInt32(this.#scratch + 4, true);
      words.push({ word, startS: start * FRAME_S, endS: (end + 1) * FRAME_S });
    }
    return words;
  }

  close(): void {
    if (this.#decoder === 0) return;
    this.#runtime._decoder_free(this.#decoder);
    this.#runtime._free(this.#scratch);
    this.#decoder = 0;
  }
}

/** The start of a decoder, step by step as the package does it, but from bytes. */
function createDecoder(runtime: Runtime, files: LentFiles, settings: SearchSettings): Pointer {
  const lend = <T>(name: string, use: (file: Pointer) => T): T => {
    const { at, bytes } = files.lent(name);
    return use(runtime._s3file_init(at, bytes.length));
  };
  const sure = (result: Pointer, what: string): number => {
    if (result <= 0) throw new EngineFault('model', `the recogniser could not read ${what}`);
    return result;
  };
  const config = {
    ...(JSON.parse(new TextDecoder().decode(files.lent('feat_params.json').bytes)) as object),
    hmm: 'model',
    samprate: 16_000,
    loglevel: 'FATAL',
    lw: settings.languageWeight,
    // The search multiplies this by no language weight, so it is given as it is to count.
    wip: Math.exp(settings.wordPenalty),
    silprob: settings.silence,
    fillprob: settings.filler,
    beam: settings.beam,
    pbeam: settings.beam,
    wbeam: settings.wordBeam,
    // Scores are relative to the best of the states looked at; all are looked at, so that two searches can be compared.
    compallsen: true,
  };
  const decoder = sure(
    runtime._decoder_create(
      sure(
        withText(runtime, JSON.stringify(config), (at) => runtime._config_parse_json(0, at)),
        'its settings',
      ),
    ),
    'its settings',
  );
  if (runtime._decoder_init_cleanup(decoder) < 0) throw new EngineFault('model', 'the recogniser could not be made ready');
  sure(runtime._decoder_init_fe(decoder), 'its front end');
  sure(runtime._decoder_init_feat_s3file(decoder, 0), 'its features');
  sure(runtime._decoder_init_acmod_pre(decoder), 'its acoustic model');
  runtime._set_mdef(
    decoder,
    sure(
      lend('mdef', (at) => runtime._bin_mdef_read_s3file(at, 0)),
      'mdef',
    ),
  );
  const logmath = runtime._decoder_logmath(decoder);
  runtime._set_tmat(
    decoder,
    sure(
      lend('transition_matrices', (at) => runtime._tmat_init_s3file(at, logmath, 0.0001)),
      'transition_matrices',
    ),
  );
  const loaded = lend('means', (means) =>
    lend('variances', (variances) => lend('sendump', (sendump) => runtime._load_gmm(decoder, means, variances, 0, sendump))),
  );
  if (loaded < 0 || runtime._decoder_init_acmod_post(decoder) < 0)
    throw new EngineFault('model', 'the recogniser could not read its sounds');
  sure(
    lend('dict.txt', (dict) => lend('noisedict.txt', (noise) => runtime._decoder_init_dict_s3file(decoder, dict, noise))),
    'its dictionary',
  );
  return decoder;
}
