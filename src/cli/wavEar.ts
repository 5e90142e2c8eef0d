import { basename } from 'node:path';
import {
  describeWavFault,
  EAR_RATE_HZ,
  engineNamed,
  hearSound,
  openEngine,
  readWav,
  resample,
  type HearingRefusal,
} from '../ear/index.ts';
import { vocabulary, type Grammar } from '../phrasebook/index.ts';
import { InputFault } from './fault.ts';
import { assembleModel, packagedManifest } from './modelFiles.ts';

/** What was heard of one utterance, or said in its place. */
export type Heard = {
  readonly text: string;
  readonly confidence: number;
  readonly accepted: boolean;
  readonly reason: HearingRefusal | null;
};

/** The ear of the terminal: the engine of the page, on files. */
export type WavEar = {
  /** Every utterance of a file that was given when it was opened, in order. */
  hear(path: string, grammar: Grammar): Promise<readonly Heard[]>;
  close(): void;
};

/** The sound of a WAV file at the ear's rate, or an `InputFault` that says what is wrong with the file. */
export function soundOf(path: string, bytes: Uint8Array): Float32Array {
  const wav = readWav(bytes);
  if (!wav.ok) throw new InputFault(`${basename(path)}: ${describeWavFault(wav.error)}`);
  return resample(wav.value.samples, wav.value.rateHz, EAR_RATE_HZ);
}

/** Opens an ear on these files; each is read at once, so that a bad one is told before anything is done. */
export async function openEar(files: readonly { readonly path: string; readonly bytes: Uint8Array }[]): Promise<WavEar> {
  const sounds = new Map(files.map(({ path, bytes }) => [path, soundOf(path, bytes)]));
  if (sounds.size === 0) return { hear: () => Promise.resolve([]), close: () => undefined };
  const { model, files: modelFiles } = await assembleModel(engineNamed(await packagedManifest(), null), vocabulary());
  const recogniser = await openEngine(model, modelFiles);
  return {
    async hear(path, grammar) {
      const heard = await hearSound(recogniser, sounds.get(path) ?? new Float32Array(), grammar, 'by-ear');
      if (heard.length === 0) return [{ text: '', confidence: 0, accepted: false, reason: 'silence' }];
      return heard.map(({ text, confidence, accepted, reason }) => ({ text, confidence, accepted, reason }));
    },
    close: () => recogniser.close(),
  };
}
