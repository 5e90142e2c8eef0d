/**
 * The call name: how often other sounds are taken for it, and how often it is heard. Call listening takes nothing else, so what
 * is counted false here are the false accepts of that way of listening; open listening meets the same sounds in `ear`.
 *
 * Usage: npm run bench -- ear-name [--audio FOLDER] [--every N]
 * Sounds without the name: the talk of the bench, the dev part of the real speech, its noise. With it: four ways of calling in
 * the voices slt and rms, clean and at 8 dB of four noises. Then what is heard while the window is open: 50 phrases in the same
 * voices word for word, with no name in the grammar, with one that is not said, and with it said again.
 */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { assembleModel, packagedManifest } from '../../src/cli/modelFiles.ts';
import { withNoise } from '../../src/cli/noise/mix.ts';
import { readScoreManifest } from '../../src/cli/scoring/manifest.ts';
import {
  afterName,
  calledGrammar,
  callGrammar,
  engineNamed,
  openEngine,
  readWav,
  resample,
  type Hypothesis,
} from '../../src/ear/index.ts';
import { CALL_NAMES, fullGrammar, vocabulary, type Grammar } from '../../src/phrasebook/index.ts';
import { BENCH_VOICES, benchPhrases, type BenchPhrase } from './ear/phrases.ts';
import { speak } from './ear/speech.ts';
import { share, wilson } from './ear/statistics.ts';

const { values } = parseArgs({
  options: { audio: { type: 'string', default: join('..', 'shared', 'audio') }, every: { type: 'string', default: '1' } },
});
const every = Number(values.every);
const { files, model } = await assembleModel(engineNamed(await packagedManifest(), 'swarfnet'), vocabulary());
const engine = await openEngine(model, files);

const said = (words: string, voice: BenchPhrase['voice'], kind: BenchPhrase['kind']): BenchPhrase => ({
  words,
  context: 'inch .620',
  voice,
  stretch: 1,
  kind,
});
const talk = benchPhrases(640)
  .filter(({ kind }) => kind === 'talk')
  .filter((_, at) => at % every === 0);
const others = [...(await speak(talk)).values()];
const manifest = join(values.audio, 'dev.jsonl');
if (existsSync(manifest))
  for (const { wav } of (await readScoreManifest(manifest)).filter((_, at) => at % (4 * every) === 0)) {
    const read = readWav(new Uint8Array(readFileSync(wav)));
    if (read.ok) others.push(resample(read.value.samples, read.value.rateHz));
  }
const hours = others.reduce((sum, samples) => sum + samples.length, 0) / 16_000 / 3600;

process.stdout.write(`${others.length} sounds without a name, ${(hours * 60).toFixed(1)} min\n`);
process.stdout.write('| name | taken for it | at most, an hour | heard clean | at 8 dB |\n| --- | --- | --- | --- | --- |\n');
for (const name of CALL_NAMES) {
  const grammar = callGrammar(fullGrammar, name);
  const hear = async (samples: Float32Array): Promise<Hypothesis> => {
    await engine.open(grammar);
    engine.accept(samples);
    return engine.finish();
  };
  const called = ({ accepted, text }: Hypothesis): boolean => accepted && afterName(text.split(' '), name) !== null;
  let alarms = 0;
  for (const samples of others) if (called(await hear(samples))) alarms += 1;
  const low = name.toLowerCase();
  const calls = [low, `hey ${low}`, `${low} how much left`, `${low} next`].flatMap((words) =>
    BENCH_VOICES.map((voice) => said(words, voice, 'phrase')),
  );
  const heard = { clean: 0, noisy: 0 };
  for (const [at, samples] of [...(await speak(calls)).values()].entries()) {
    if (called(await hear(samples))) heard.clean += 1;
    const kind = (['motor', 'chatter', 'coolant', 'interrupted'] as const)[at % 4]!;
    if (called(await hear(withNoise(samples, { kind, snrDb: 8, seed: 3 }, at)))) heard.noisy += 1;
  }
  const most = (wilson(alarms, others.length)[1] * others.length) / hours;
  const cells = [
    name,
    `${alarms} of ${others.length}`,
    most.toFixed(0),
    share(heard.clean, calls.length),
    share(heard.noisy, calls.length),
  ];
  process.stdout.write(`| ${cells.join(' | ')} |\n`);
}

const phrases = benchPhrases(640)
  .filter(({ kind }) => kind === 'phrase')
  .filter((_, at) => at % 9 === 0)
  .slice(0, 50)
  .map((phrase) => ({ ...phrase, stretch: 1 }));
const right = async (grammar: Grammar, sounds: readonly Float32Array[], name: string): Promise<string> => {
  let count = 0;
  for (const [at, samples] of sounds.entries()) {
    await engine.open(grammar);
    engine.accept(samples);
    const { accepted, text } = await engine.finish();
    const words = text.split(' ');
    if (accepted && (afterName(words, name) ?? words).join(' ') === phrases[at]?.words) count += 1;
  }
  return share(count, phrases.length);
};
const sounds = async (before: string): Promise<Float32Array[]> => [
  ...(await speak(phrases.map((phrase) => ({ ...phrase, words: `${before}${phrase.words}` })))).values(),
];
const bare = await sounds('');
process.stdout.write('\n| in the window of | no name in the grammar | not said | said again |\n| --- | --- | --- | --- |\n');
for (const name of CALL_NAMES) {
  const grammar = calledGrammar(fullGrammar, name);
  const named = await sounds(`${name.toLowerCase()} `);
  const cells = [await right(fullGrammar, bare, name), await right(grammar, bare, name), await right(grammar, named, name)];
  process.stdout.write(`| ${name} | ${cells.join(' | ')} |\n`);
}
engine.close();
