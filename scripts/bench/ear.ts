/**
 * How rightly each recogniser hears: real single words, synthetic phrases in voices that no model was made with, talk and noise
 * that must be refused; clean and in machine noise, with what a stated confidence is worth.
 *
 * Usage: npm run bench -- ear [--audio FOLDER] [--engine NAME]… [--every N] [--phrases N] [--set dev|train] [--context off]
 * [--condition NAME]… [--out FILE]
 * The real speech is no part of the repository: FOLDER holds dev.jsonl; without it only the synthetic part is run. `--every 5`
 * takes every fifth utterance.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { assembleModel, packagedManifest } from '../../src/cli/modelFiles.ts';
import { withNoise } from '../../src/cli/noise/mix.ts';
import { BENCH_WORDS, benchGrammar } from '../../src/cli/scoring/bench-grammar.ts';
import { readScoreManifest } from '../../src/cli/scoring/manifest.ts';
import { accepts, engineNamed, openEngine, readWav, resample, wordGraph, type Recogniser } from '../../src/ear/index.ts';
import type { Context } from '../../src/job/index.ts';
import { fullGrammar, grammarFor, vocabulary, type Grammar } from '../../src/phrasebook/index.ts';
import { CONTEXTS } from '../../tests/phrasebook/contexts.ts';
import { CONDITIONS, noiseFor } from './ear/conditions.ts';
import { verdictOn } from './ear/meaning.ts';
import { benchPhrases } from './ear/phrases.ts';
import { report } from './ear/report.ts';
import type { BenchRow } from './ear/row.ts';
import { speak } from './ear/speech.ts';

const { values } = parseArgs({
  options: {
    audio: { type: 'string', default: join('..', 'shared', 'audio') },
    engine: { type: 'string', multiple: true },
    every: { type: 'string', default: '1' },
    phrases: { type: 'string', default: '640' },
    set: { type: 'string', default: 'dev' },
    context: { type: 'string', default: 'on' },
    condition: { type: 'string', multiple: true },
    out: { type: 'string' },
  },
});
const every = Number(values.every);

/** One thing to be heard: `said` is "" where it must be refused; `context` only where its meaning counts. */
type Item = {
  readonly group: string;
  readonly said: string;
  readonly grammar: Grammar;
  readonly context: Context | null;
  readonly samples: () => Float32Array;
};

async function realWords(): Promise<Item[]> {
  const manifest = join(values.audio, `${values.set}.jsonl`);
  if (!existsSync(manifest)) {
    process.stderr.write(`${manifest} is not there; only the synthetic part is measured.\n`);
    return [];
  }
  const graph = wordGraph(benchGrammar);
  return (await readScoreManifest(manifest)).map(({ wav, text, group }) => ({
    group,
    said: text !== '' && accepts(graph, text.split(' ')) ? text : '',
    grammar: benchGrammar,
    context: null,
    samples: () => {
      const read = readWav(new Uint8Array(readFileSync(wav)));
      if (!read.ok) throw new Error(`${wav}: ${read.error.key}`);
      return resample(read.value.samples, read.value.rateHz);
    },
  }));
}

async function syntheticPhrases(): Promise<Item[]> {
  const phrases = benchPhrases(Number(values.phrases)).filter((_, at) => at % every === 0);
  const spoken = await speak(phrases);
  return phrases.map((phrase) => {
    const context: Context = CONTEXTS[phrase.context];
    return {
      group: phrase.kind === 'talk' ? 'talk' : 'phrases',
      said: phrase.kind === 'talk' ? '' : phrase.words,
      grammar: values.context === 'off' ? fullGrammar : grammarFor(context),
      context,
      samples: () => spoken.get(phrase)!,
    };
  });
}

const items = [...(await realWords()).filter((_, at) => at % every === 0), ...(await syntheticPhrases())];
const manifest = await packagedManifest();
const names = values.engine ?? manifest.engines.map((each) => each.name);
const engines: { readonly name: string; readonly recogniser: Recogniser }[] = [];
for (const name of names) {
  const { files, model } = await assembleModel(engineNamed(manifest, name), [...vocabulary(), ...BENCH_WORDS]);
  engines.push({ name, recogniser: await openEngine(model, files) });
}

const rows: BenchRow[] = [];
/** What there is so far, so that a run that is broken off is not lost. */
function keep(): void {
  if (values.out !== undefined) writeFileSync(values.out, `${rows.map((row) => JSON.stringify(row)).join('\n')}\n`);
}
for (const condition of CONDITIONS.filter(({ name }) => values.condition?.includes(name) ?? true))
  for (const [index, item] of items.entries()) {
    const noise = noiseFor(condition, index);
    const clean = item.samples();
    const samples = noise === null ? clean : withNoise(clean, noise, index);
    for (const { name, recogniser } of engines) {
      await recogniser.open(item.grammar);
      const before = performance.now();
      const processor = process.cpuUsage();
      recogniser.accept(samples);
      const heard = await recogniser.finish();
      const workMs = performance.now() - before;
      const { user, system } = process.cpuUsage(processor);
      const words = heard.accepted ? heard.text : null;
      rows.push({
        engine: name,
        condition: condition.name,
        noise: noise?.kind ?? null,
        group: item.group,
        said: item.said,
        heard: words,
        text: heard.text,
        confidence: heard.confidence,
        verdict: item.context === null || item.said === '' ? null : verdictOn(item.said, words, item.context, heard.confidence),
        audioS: samples.length / 16_000,
        workMs,
        processorMs: (user + system) / 1000,
      });
    }
    if (index % 100 === 99) keep();
    if (index % 200 === 199) process.stderr.write(`${condition.name}: ${index + 1} of ${items.length}\n`);
  }
engines.forEach(({ recogniser }) => recogniser.close());
keep();
process.stdout.write(`${report(rows)}\n`);
