/**
 * Random strings of the vocabulary in random moments: none may throw, and none may give a size that the stock cannot hold, or a
 * doubtful one, without a question. What the phrasebook leaves to the job is put to the job: `decide` must ask or refuse.
 * Run: npx tsx scripts/bench/fuzz-phrasebook.ts [COUNT] [SEED]
 */
import { readFileSync } from 'node:fs';
import { contextOf, decide, folded, fold, silence, type Context, type JobState } from '../../src/job/index.ts';
import type { Length } from '../../src/measure/index.ts';
import { interpret, vocabulary } from '../../src/phrasebook/index.ts';
import { readJobFile } from '../../src/shelf/index.ts';

const print = (line: string): void => void process.stdout.write(`${line}\n`);

const COUNT = Number(process.argv[2] ?? 1_000_000);
const SEED = Number(process.argv[3] ?? 1);

/** A small generator of numbers from 0 to 1 (mulberry32), so that a run can be repeated. */
function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** Every step of both demo jobs as a moment: its state and its context. */
const moments: { readonly state: JobState; readonly context: Context }[] = [];
for (const name of ['inch', 'metric']) {
  const file = readJobFile(readFileSync(new URL(`../../src/shelf/demos/${name}.job.json`, import.meta.url), 'utf8'));
  if (!file.ok) throw new Error(`demo ${name} cannot be read`);
  const { plan } = file.value;
  for (const operation of plan.route.operations) {
    const state = fold(folded(plan, []), {
      id: operation.id,
      seq: 1,
      at: 0,
      v: 1,
      body: { type: 'OperationOpened', operation: operation.id },
    });
    moments.push({ state, context: contextOf(state, silence, 1000) });
  }
}

const random = randomFrom(SEED);
const words = vocabulary();
const numberWords =
  'oh zero one two three four five six seven eight nine ten eleven twelve thirteen twenty thirty fifty sixty hundred point and a half thou tenths inch'.split(
    ' ',
  );
const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;

const micros = new Float64Array(COUNT);
let understood = 0;
let readings = 0;
let asked = 0;
let loose = 0;
for (let run = 0; run < COUNT; run += 1) {
  const { state, context } = pick(moments);
  const from = random() < 0.5 ? words : numberWords;
  const sentence = Array.from({ length: 1 + Math.floor(random() * 7) }, () => pick(from)).join(' ');
  const started = performance.now();
  const read = interpret(sentence, context);
  micros[run] = (performance.now() - started) * 1000;
  if (!read.ok) continue;
  understood += 1;
  if (read.value.type !== 'reading' || read.value.value.as === 'none') continue;
  readings += 1;
  if (read.value.value.as === 'either') {
    asked += 1;
    continue;
  }
  const value: Length = read.value.value.value;
  // What is measured: a bore or a width is of the mate, which the stock does not bound, and an indicator has two sides.
  const { size, length } = state.plan.part.stock;
  const quantity = read.value.thing === 'shoulder' ? 'length' : (read.value.thing ?? context.awaited);
  const most = quantity === 'diameter' ? size : quantity === 'length' || quantity === 'depth' ? length : null;
  const outside = most !== null && (value < 0 || value > most);
  if (!outside) continue;
  const decision = decide({ state, talk: silence, words: sentence, now: 1000 }, read.value);
  if (decision.events.some((event) => event.type === 'ReadingLogged' || event.type === 'MateMeasured')) {
    loose += 1;
    if (loose <= 10) print(`  stored without a question: "${sentence}" → ${value} nm`);
  }
}
micros.sort();
print(`${COUNT} strings (seed ${SEED}): 0 threw, ${understood} understood, ${readings} numbers read, ${asked} asked about`);
print(`outside the stock and stored without a question: ${loose}`);
print(
  `time for one: median ${(micros[COUNT >> 1] ?? 0).toFixed(1)} µs, 99th of 100 ${(micros[Math.floor(COUNT * 0.99)] ?? 0).toFixed(1)} µs`,
);
process.exitCode = loose > 0 ? 1 : 0;
