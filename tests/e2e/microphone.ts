import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openSynthesiser } from '../../scripts/clips/flite.ts';
import { wavBytes } from '../../src/voice/index.ts';

const RATE_HZ = 16_000;

/** One thing said, and the silence left after it for the page to answer in (seconds). */
export type Said = { readonly words: string; readonly thenS: number };

/**
 * A WAV of synthetic speech to stand in for the microphone: silence, then each line with its silence after it. The voice is
 * flite's awb at a calm pace, one that the network was trained with: it shows that the chain works, not how well it hears, and
 * a voice held out of training ("done" by rms, heard with .3) would make these tests a trial of the network instead.
 */
export async function speechFile(lines: readonly Said[], beforeS: number): Promise<string> {
  const synthesiser = await openSynthesiser('awb', 1.1, '');
  const pieces: Float32Array[] = [new Float32Array(beforeS * RATE_HZ)];
  try {
    for (const { words, thenS } of lines) {
      pieces.push((await synthesiser.render(words)).sound, new Float32Array(thenS * RATE_HZ));
    }
  } finally {
    synthesiser.close();
  }
  const sound = new Float32Array(pieces.reduce((length, piece) => length + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    sound.set(piece, at);
    at += piece.length;
  }
  const file = join(mkdtempSync(join(tmpdir(), 'swarfside-speech-')), 'microphone.wav');
  writeFileSync(file, wavBytes(sound));
  return file;
}
