/**
 * Measures the network and, beside it in the same run, the packaged recogniser, and writes one line of JSON for each utterance:
 * what was said, what each heard, and the evidence of each; of the network that of the first view, and for choosing settings also
 * of the two of a second look. `report.py` makes tables of it, `fit.py` the weights of the confidence.
 *
 * Usage: measure.ts SET OUT.jsonl [--audio FOLDER] [--every N] [--noises N] [--only swarfnet]
 * SET: `back` (the speakers of train.jsonl that training kept back) and `trained-voices` (new sentences in flite voices that
 * training heard, in kinds of noise that it heard), both to choose settings by; `dev` (measuring only), and `held-out` (sentences
 * in the flite voices slt and rms, which training never hears). The last two meet two kinds of noise that training never hears.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { assembleModel, packagedManifest } from '../../src/cli/modelFiles.ts';
import type { NoiseKind } from '../../src/cli/noise/kinds.ts';
import { withNoise } from '../../src/cli/noise/mix.ts';
import { seeded } from '../../src/cli/noise/random.ts';
import { BENCH_WORDS, benchGrammar } from '../../src/cli/scoring/bench-grammar.ts';
import { engineNamed, openEngine, readPronunciations, readWav, resample, type Recogniser } from '../../src/ear/index.ts';
import { openSwarfnet } from '../../src/ear/network/index.ts';
import { fullGrammar, vocabulary, type Grammar } from '../../src/phrasebook/index.ts';

type Item = {
  readonly id: string;
  readonly said: string;
  readonly group: string;
  readonly samples: () => Float32Array;
  readonly grammar: Grammar;
};

const [set, out, ...rest] = process.argv.slice(2);
if (set === undefined || out === undefined) throw new Error('usage: measure.ts SET OUT.jsonl [--audio FOLDER] [--every N] [--only swarfnet]');
const option = (name: string, otherwise: string): string => {
  const at = rest.indexOf(`--${name}`);
  return at < 0 ? otherwise : (rest[at + 1] ?? otherwise);
};
const audio = option('audio', join('..', 'shared', 'audio'));
const every = Number(option('every', '1'));

const sound = (path: string): Float32Array => {
  const read = readWav(new Uint8Array(readFileSync(path)));
  if (!read.ok) throw new Error(`${path} is not a sound`);
  return resample(read.value.samples, read.value.rateHz);
};

type Line = { readonly wav: string; readonly text: string; readonly group: string };
const listed = (name: string): Line[] =>
  readFileSync(join(audio, `${name}.jsonl`), 'utf8').split('\n').filter((line) => line !== '').map((line) => JSON.parse(line) as Line);

function realWords(name: 'train' | 'dev'): Item[] {
  let lines = listed(name);
  if (name === 'train') {
    // The same share of speakers as speech.py keeps back.
    const speaker = (line: Line): string => (line.wav.split('/').at(-1) ?? '').split('_')[0] ?? '';
    const back = new Set([...new Set(lines.map(speaker))].sort().filter((_, at) => at % 8 === 0));
    lines = lines.filter((line) => back.has(speaker(line)));
  }
  return lines.map(({ wav, text, group }) => {
    const samples = (): Float32Array => sound(join(audio, wav));
    return { id: wav, said: text, group, samples, grammar: benchGrammar };
  });
}

/** Sentences of a seed that training did not use, spoken by flite; talk is to be refused. */
function synthetic(voices: readonly string[]): Item[] {
  const folder = mkdtempSync(join(tmpdir(), 'swarfnet-'));
  process.on('exit', () => rmSync(folder, { recursive: true }));
  const lexicon = join(folder, 'thou.lex');
  writeFileSync(lexicon, '"thou" nil : th aw1\n');
  const random = seeded(77);
  const lines = readFileSync(option('sentences', '.cache/ear/measure.txt'), 'utf8').split('\n').filter((line) => line !== '');
  return lines.map((line, at) => {
    const [group = '', said = ''] = line.split('\t');
    const voice = voices[at % voices.length] ?? '';
    const stretch = (0.85 + 0.35 * random()).toFixed(2);
    return {
      id: `${voice}-${at}`, said: group === 'talk' || group === 'strange' ? '' : said, group, grammar: fullGrammar,
      samples: () => {
        const wav = join(folder, 'said.wav');
        const how = ['-voice', voice, '-add_lex', lexicon, '--setf', `duration_stretch=${stretch}`];
        execFileSync('flite', [...how, '-t', said, '-o', wav], { stdio: 'ignore' });
        const spoken = sound(wav);
        const whole = new Float32Array(spoken.length + 9600);
        whole.set(spoken, 4800);
        return whole.map((x) => x * 0.5 + (random() - 0.5) * 2e-4);
      },
    };
  });
}

const SETS: Readonly<Record<string, () => Item[]>> = {
  back: () => realWords('train'),
  dev: () => realWords('dev'),
  'trained-voices': () => synthetic(['awb', 'kal16']),
  'held-out': () => synthetic(['slt', 'rms']),
};
const items = (SETS[set]?.() ?? []).filter((_, at) => at % every === 0);
type Condition = { readonly name: string; readonly noise: NoiseKind | null; readonly db: number };
const CLEAN: Condition = { name: 'clean', noise: null, db: 0 };
const HELD_OUT: readonly Condition[] = [
  CLEAN,
  ...([['interrupted', 10], ['coolant', 10], ['interrupted', 5], ['coolant', 5]] as const)
    .slice(0, Number(option('noises', '4')))
    .map(([noise, db]) => ({ name: `${noise} ${db}`, noise, db })),
];
const HEARD = ['motor', 'gears', 'hiss', 'chatter', 'air'] as const;
const forTuning = set === 'back' || set === 'trained-voices';

/** Measuring goes through all conditions; for choosing settings each utterance comes clean and in one noise of a trained kind. */
function conditionsFor(at: number): readonly Condition[] {
  if (!forTuning) return HELD_OUT;
  const db = [15, 10, 5][at % 3] ?? 10;
  return [CLEAN, { name: `trained kinds ${db}`, noise: HEARD[at % HEARD.length] ?? 'motor', db }];
}

const pronunciations = new Map([
  ...readPronunciations(readFileSync('node_modules/soundswallower/model/en-us/dict.txt', 'utf8')),
  ...readPronunciations(readFileSync('models/pronunciations.txt', 'utf8')),
]);
const engines: Recogniser[] = [
  await openSwarfnet({ model: new Uint8Array(readFileSync(option('model', 'models/swarfnet/swarfnet.onnx'))), pronunciations, wasmUrl: null, otherViews: [] }),
];
if (option('only', '') === '') {
  const { files, model } = await assembleModel(engineNamed(await packagedManifest(), 'soundswallower'), [...vocabulary(), ...BENCH_WORDS]);
  engines.push(await openEngine(model, files));
}

/** The sound as the second look hears it (`src/ear/network/judge.ts`), for the fit of its confidence. */
async function shifted(engine: Recogniser, grammar: Grammar, samples: Float32Array): Promise<readonly unknown[]> {
  const views: unknown[] = [];
  for (const warp of [1.1, 0.9]) {
    engine.adapt?.({ version: 1, warp, bias: 0, speechDb: 0, phrases: 1, before: 0, after: 0 });
    await engine.open(grammar);
    engine.accept(samples);
    const { text, ...more } = await engine.finish();
    views.push({ text, evidence: 'evidence' in more ? more.evidence : null });
  }
  engine.adapt?.(null);
  return views;
}

const rows: string[] = [];
for (const [at, item] of items.entries()) {
  const clean = item.samples();
  for (const { name, noise, db } of conditionsFor(at)) {
    // What is to be refused needs no further noise, beyond every fourth of it.
    if (noise !== null && item.said === '' && at % 4 !== 0) continue;
    const samples = noise === null ? clean : withNoise(clean, { kind: noise, snrDb: db, seed: 1 }, at);
    const heard: Record<string, unknown> = {};
    for (const engine of engines) {
      const begin = performance.now();
      await engine.open(item.grammar);
      engine.accept(samples);
      const { text, confidence, accepted, fillerScore, alternatives, ...more } = await engine.finish();
      const evidence = 'evidence' in more ? more.evidence : null;
      heard[engine.name] = { text, confidence, accepted, fillerScore, alternatives, evidence, ms: performance.now() - begin };
      if (engine.name === 'swarfnet' && forTuning) heard['shifted'] = await shifted(engine, item.grammar, samples);
    }
    const { id, said, group } = item;
    rows.push(JSON.stringify({ id, said, group, condition: name, seconds: samples.length / 16_000, heard }));
  }
  if (at % 50 === 0) writeFileSync(out, `${rows.join('\n')}\n`);
}
writeFileSync(out, `${rows.join('\n')}\n`);
engines.forEach((engine) => engine.close());
