/**
 * Renders the small WAVs of tests/fixtures/wav with a free synthesiser (flite, BSD-4-Clause, voices slt and rms): synthetic
 * speech, made for the tests of the ear. `npx tsx scripts/models/fixtures.ts` makes them anew.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { writeWav } from '../../src/ear/index.ts';
import { openSynthesiser } from '../clips/flite.ts';

const FOLDER = new URL('../../tests/fixtures/wav/', import.meta.url);
const RATE_HZ = 16_000;
const PAUSE_S = 0.9;

/** File, voice, and what is said; several sentences stand in one file with silence between. */
const WANTED: readonly (readonly [file: string, voice: string, said: readonly string[]])[] = [
  ['synthetic-next.wav', 'slt', ['next']],
  ['synthetic-reads-627.wav', 'slt', ['reads six twenty seven']],
  ['synthetic-how-much-left.wav', 'rms', ['how much left']],
  ['synthetic-three-things.wav', 'rms', ['next', 'reads six twenty seven', 'how much left']],
  ['synthetic-talk.wav', 'rms', ['my brother bought a yellow bicycle']],
];

mkdirSync(FOLDER, { recursive: true });
for (const [file, voice, said] of WANTED) {
  const synthesiser = await openSynthesiser(voice, 1, '');
  const pieces: Float32Array[] = [new Float32Array(0.3 * RATE_HZ)];
  for (const text of said) {
    const { sound, startS, endS } = await synthesiser.render(text);
    pieces.push(sound.slice(Math.max(0, startS - 0.05) * RATE_HZ, (endS + 0.05) * RATE_HZ), new Float32Array(PAUSE_S * RATE_HZ));
  }
  synthesiser.close();
  const samples = new Float32Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    samples.set(piece, at);
    at += piece.length;
  }
  writeFileSync(new URL(file, FOLDER), writeWav({ samples, rateHz: RATE_HZ }));
}
