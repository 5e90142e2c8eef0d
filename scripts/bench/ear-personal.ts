/**
 * What the set-up of a person's own voice gains: for each synthetic voice that no model was made with, the set-up's phrases are
 * studied and fitted, then other phrases are heard without and with what was fitted, clean and at 10 dB of held-out noise.
 *
 * Usage: npm run bench -- ear-personal [--phrases N]
 */
import { parseArgs } from 'node:util';
import { assembleModel, packagedManifest } from '../../src/cli/modelFiles.ts';
import { withNoise } from '../../src/cli/noise/mix.ts';
import { BENCH_WORDS } from '../../src/cli/scoring/bench-grammar.ts';
import { engineNamed, fitPersonal, openEngine, SETUP_PHRASES, type Personal, type Take } from '../../src/ear/index.ts';
import { fullGrammar, grammarFor, vocabulary } from '../../src/phrasebook/index.ts';
import { CONTEXTS } from '../../tests/phrasebook/contexts.ts';
import { verdictOn } from './ear/meaning.ts';
import { BENCH_VOICES, benchPhrases, type BenchPhrase } from './ear/phrases.ts';
import { speak } from './ear/speech.ts';
import { share } from './ear/statistics.ts';

const { values } = parseArgs({ options: { phrases: { type: 'string', default: '80' } } });
const print = (line: string): void => void process.stdout.write(`${line}\n`);

const { files, model } = await assembleModel(engineNamed(await packagedManifest(), 'swarfnet'), [
  ...vocabulary(),
  ...BENCH_WORDS,
]);
const engine = await openEngine(model, files);
const study = engine.study?.bind(engine);
const adapt = engine.adapt?.bind(engine);
const { acceptOdds } = engine;
if (study === undefined || adapt === undefined || acceptOdds === undefined) throw new Error(`${engine.name} cannot study`);

/** A set-up, its second half with the machine running, as it is asked for. */
async function setUp(voice: BenchPhrase['voice']): Promise<Personal> {
  const said = SETUP_PHRASES.map((words): BenchPhrase => ({ words, context: 'inch .620', voice, stretch: 1, kind: 'phrase' }));
  const spoken = await speak(said);
  const takes: Take[] = [];
  for (const [index, phrase] of said.entries()) {
    const clean = spoken.get(phrase)!;
    const samples = index < said.length / 2 ? clean : withNoise(clean, { kind: 'motor', snrDb: 15, seed: 3 }, index);
    takes.push({ said: phrase.words, levelDb: -20, ...(await study!(samples, phrase.words, fullGrammar)) });
  }
  return fitPersonal(takes, acceptOdds!);
}

print(
  '| voice | shift | bias | of the set-up: before, after | noise | phrases | right in meaning before | after | wrong before | after |',
);
print('| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |');
for (const voice of BENCH_VOICES) {
  const personal = await setUp(voice);
  const phrases = benchPhrases(4 * Number(values.phrases))
    .filter((phrase) => phrase.voice === voice && phrase.kind === 'phrase')
    .slice(0, Number(values.phrases));
  const spoken = await speak(phrases);
  for (const noise of [null, 'interrupted', 'coolant'] as const) {
    const counts = { before: { right: 0, wrong: 0 }, after: { right: 0, wrong: 0 } };
    for (const [index, phrase] of phrases.entries()) {
      const clean = spoken.get(phrase)!;
      const samples = noise === null ? clean : withNoise(clean, { kind: noise, snrDb: 10, seed: 9 }, index);
      const context = CONTEXTS[phrase.context];
      for (const when of ['before', 'after'] as const) {
        adapt(when === 'after' ? personal : null);
        await engine.open(grammarFor(context));
        engine.accept(samples);
        const { accepted, text, confidence } = await engine.finish();
        const verdict = verdictOn(phrase.words, accepted ? text : null, context, confidence);
        if (verdict.as === 'right') counts[when].right += 1;
        if (verdict.as === 'wrong') counts[when].wrong += 1;
      }
    }
    const { before, after } = counts;
    const cells = [before.right, after.right, before.wrong, after.wrong].map((count) => share(count, phrases.length));
    const gained = `${personal.before}, ${personal.after} of ${personal.phrases}`;
    print(
      `| ${[voice, personal.warp, personal.bias.toFixed(2), gained, noise === null ? 'none' : `${noise} 10 dB`, phrases.length, ...cells].join(' | ')} |`,
    );
  }
}
engine.close();
