import createModule from 'soundswallower';
import type { ModelFiles } from './manifest.ts';
import { EngineFault } from './recogniser.ts';

/** An address in the memory of the compiled recogniser; 0 stands for nothing. */
export type Pointer = number;

/**
 * The functions of the compiled recogniser that are used here. The package's own `Decoder` class reads its files by path and
 * gives no scores; these are what it calls itself, so files can be handed over as verified bytes and scores can be had.
 */
export type Runtime = {
  readonly HEAP_DATA_VIEW: DataView;
  _malloc(bytes: number): Pointer;
  _free(at: Pointer): void;
  _s3file_init(at: Pointer, bytes: number): Pointer;
  _s3file_free(file: Pointer): void;
  _config_parse_json(config: Pointer, json: Pointer): Pointer;
  _decoder_create(config: Pointer): Pointer;
  _decoder_free(decoder: Pointer): void;
  _decoder_logmath(decoder: Pointer): Pointer;
  _decoder_init_cleanup(decoder: Pointer): number;
  _decoder_init_fe(decoder: Pointer): Pointer;
  _decoder_init_feat_s3file(decoder: Pointer, lda: Pointer): Pointer;
  _decoder_init_acmod_pre(decoder: Pointer): Pointer;
  _bin_mdef_read_s3file(file: Pointer, contextIndependentOnly: number): Pointer;
  _set_mdef(decoder: Pointer, mdef: Pointer): void;
  _tmat_init_s3file(file: Pointer, logmath: Pointer, floor: number): Pointer;
  _set_tmat(decoder: Pointer, tmat: Pointer): void;
  _load_gmm(decoder: Pointer, means: Pointer, variances: Pointer, weights: Pointer, sendump: Pointer): number;
  _decoder_init_acmod_post(decoder: Pointer): number;
  _decoder_init_dict_s3file(decoder: Pointer, dict: Pointer, fillers: Pointer): Pointer;
  _fsg_model_init(name: Pointer, logmath: Pointer, languageWeight: number, states: number): Pointer;
  _fsg_model_word_add(fsg: Pointer, word: Pointer): number;
  _fsg_model_trans_add(fsg: Pointer, from: number, to: number, logProbability: number, word: number): void;
  _fsg_model_null_trans_add(fsg: Pointer, from: number, to: number, logProbability: number): number;
  _fsg_set_states(fsg: Pointer, start: number, final: number): void;
  _fsg_model_free(fsg: Pointer): void;
  _decoder_set_fsg(decoder: Pointer, fsg: Pointer): number;
  _decoder_start_utt(decoder: Pointer): number;
  _decoder_process_float32(decoder: Pointer, samples: Pointer, count: number, noSearch: number, whole: number): number;
  _decoder_end_utt(decoder: Pointer): number;
  _decoder_hyp(decoder: Pointer, score: Pointer): Pointer;
  _decoder_seg_iter(decoder: Pointer): Pointer;
  _seg_iter_next(segment: Pointer): Pointer;
  _seg_iter_word(segment: Pointer): Pointer;
  _seg_iter_frames(segment: Pointer, start: Pointer, end: Pointer): void;
};

type Options = { modelBase: string; defaultModel: null; print(line: string): void; printErr(line: string): void };

let runtime: Promise<Runtime> | null = null;

/** The compiled recogniser, once a thread: a further copy would cost its memory again, and in Node a process listener. */
export function openRuntime(): Promise<Runtime> {
  const quiet: Options = { modelBase: '', defaultModel: null, print: () => undefined, printErr: () => undefined };
  const create = createModule as unknown as (options: Options) => Promise<Runtime>;
  runtime ??= create(quiet).catch((cause: unknown) => {
    runtime = null;
    throw new EngineFault('model', 'the recogniser itself (WebAssembly) could not be started', { cause });
  });
  return runtime;
}

/** Copies bytes into the recogniser's memory, with a zero behind them; the caller frees it. */
export function give(to: Runtime, bytes: Uint8Array): Pointer {
  const at = to._malloc(bytes.length + 1);
  if (at === 0) throw new EngineFault('decoder', `no memory for ${bytes.length} bytes`);
  const room = new Uint8Array(to.HEAP_DATA_VIEW.buffer, at, bytes.length + 1);
  room.set(bytes);
  room[bytes.length] = 0;
  return at;
}

const encoder = new TextEncoder();
const decoder = new TextDecoder();

/** Lends a text to one call and frees it after. */
export function withText<T>(to: Runtime, text: string, use: (at: Pointer) => T): T {
  const at = give(to, encoder.encode(text));
  try {
    return use(at);
  } finally {
    to._free(at);
  }
}

/** Reads text that ends in a zero. */
export function readText(from: Runtime, at: Pointer): string {
  const memory = new Uint8Array(from.HEAP_DATA_VIEW.buffer);
  let end = at;
  while (memory[end] !== 0) end += 1;
  return decoder.decode(memory.subarray(at, end));
}

/**
 * Model files in the recogniser's memory, each copied once however many decoders use it. They stay there until the thread
 * ends: a decoder reads its larger files in place.
 */
export class LentFiles {
  readonly #runtime: Runtime;
  readonly #files: ModelFiles;
  readonly #lent = new Map<string, Pointer>();

  constructor(runtime: Runtime, files: ModelFiles) {
    this.#runtime = runtime;
    this.#files = files;
  }

  lent(name: string): { readonly at: Pointer; readonly bytes: Uint8Array } {
    const bytes = this.#files.get(name);
    if (bytes === undefined) throw new EngineFault('model', `the recogniser's file "${name}" is missing`);
    let at = this.#lent.get(name);
    if (at === undefined) this.#lent.set(name, (at = give(this.#runtime, bytes)));
    return { at, bytes };
  }
}
