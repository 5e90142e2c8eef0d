/**
 * Pauses inside numbers: a number said in two halves with a silence between, through the whole ear but the microphone. Whole: it
 * came out in one piece and right; cut: the first half was taken by itself; none: nothing was accepted.
 *
 * Usage: npm run bench -- ear-pauses [--pause MS]…
 */
import { parseArgs } from 'node:util';
import { assembleModel, packagedManifest } from '../../src/cli/modelFiles.ts';
import { engineNamed, Listener, openEngine, type EarEvent } from '../../src/ear/index.ts';
import { CALL_NAME, grammarFor, vocabulary } from '../../src/phrasebook/index.ts';
import { CONTEXTS } from '../../tests/phrasebook/contexts.ts';
import { openSynthesiser } from '../clips/flite.ts';

const RATE_HZ = 16_000;
const PIECE = 320;
const { values } = parseArgs({ options: { pause: { type: 'string', multiple: true } } });
const pausesMs = (values.pause ?? ['150', '300', '450', '600', '900']).map(Number);
/** Spoken by a voice that the network knows: what is asked is where an utterance ends, not how well a voice is heard. */
const HALVES: readonly (readonly [string, string])[] = [
  ['reads six twenty', 'seven and a half'],
  ['reads six twenty', 'seven'],
  ['reads point six', 'two seven'],
  ['six', 'twenty seven'],
  ['reads one', 'two fifty'],
  ['reads six twenty seven', 'and a half'],
  ['took four', 'thou'],
  ['make that', 'six twenty seven'],
];

const { files, model } = await assembleModel(engineNamed(await packagedManifest(), 'swarfnet'), vocabulary());
const recogniser = await openEngine(model, files);
const synthesiser = await openSynthesiser('awb', 1.1, '"thou" nil : th aw1\n');
const spoken = async (words: string): Promise<Float32Array> => {
  const { sound, startS, endS } = await synthesiser.render(words);
  return sound.slice(Math.round(startS * RATE_HZ), Math.round(endS * RATE_HZ)).map((sample) => sample * 0.4);
};

process.stdout.write('| pause | whole | cut | other words | none |\n| --- | --- | --- | --- | --- |\n');
for (const pauseMs of pausesMs) {
  const count = { whole: 0, cut: 0, other: 0, none: 0 };
  for (const [first, second] of HALVES) {
    const heard: string[] = [];
    let samplesIn = 0;
    const emit = (event: EarEvent): void => {
      if (event.type === 'hypothesis' && event.hypothesis.accepted) heard.push(event.hypothesis.text);
    };
    const listener = new Listener({ recogniser, callName: CALL_NAME, now: () => (samplesIn / RATE_HZ) * 1000, emit });
    listener.setGrammar(grammarFor(CONTEXTS['inch .620']));
    listener.setMode('open');
    const silence = (ms: number): Float32Array => new Float32Array(Math.round((ms * RATE_HZ) / 1000));
    const parts = [silence(1500), await spoken(first), silence(pauseMs), await spoken(second), silence(1500)];
    for (const part of parts)
      for (let at = 0; at < part.length; at += PIECE) {
        const piece = new Float32Array(PIECE);
        piece.set(part.subarray(at, at + PIECE));
        for (let index = 0; index < PIECE; index += 1) piece[index]! += ((((samplesIn + index) * 7919) % 13) - 6) * 1e-4;
        samplesIn += PIECE;
        listener.push(piece);
        await listener.settled();
      }
    if (heard.length === 0) count.none += 1;
    else if (heard[0] === `${first} ${second}`) count.whole += 1;
    else if (heard[0] === first) count.cut += 1;
    else count.other += 1;
  }
  process.stdout.write(`| ${pauseMs} ms | ${[count.whole, count.cut, count.other, count.none].join(' | ')} |\n`);
}
synthesiser.close();
recogniser.close();
