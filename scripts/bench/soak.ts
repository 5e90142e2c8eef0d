/**
 * Eight hours at the lathe in accelerated time through the ear of the page (Node, no microphone): silence, the noises of a shop,
 * commands in quiet and in the cut, talk past the page. Memory, frames and false accepts by the part. Run: npm run bench -- soak;
 * by itself: npx tsx scripts/bench/soak.ts [--minutes N] [--seed N] [--mode open|call] [--within MINUTES] [--fresh]
 * [--every MINUTES], between two readings of the memory.
 *
 * The grammar is that of the moment: a job is worked through beside it, and what is said moves it on. `--within` ends it after so
 * long a time of work, however far it has come; the next run with the same seed and mode goes on from there (`--fresh`: from the
 * start), in a new process, so memory is judged by the process.
 *
 * Memory is what is in use after collections that free nothing more: the heap of JavaScript and all buffers, those of WebAssembly
 * among them. It is read twice. *As it comes*: whatever moment the day is in. *Alike*: after the same grammars of the same job
 * were opened, so that the caches of graphs, which are bounded but hold greater and smaller ones, hold the same each time: what
 * grows between two such readings is kept for ever. The second must stay within 5 % of what it is after the first tenth of a
 * process's part, or its first two readings. Ends with code 1 where it does not, or where a frame was lost.
 */
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { engineNamed, Listener, openEngine, type EarEvent, type ListeningMode } from '../../src/ear/index.ts';
import { CALL_NAME, grammarFor, vocabulary } from '../../src/phrasebook/index.ts';
import { assembleModel, packagedManifest } from '../../src/cli/modelFiles.ts';
import { mixSeed, seeded } from '../../src/cli/noise/random.ts';
import { root } from '../setup/root.mjs';
import { soakDay, type Kind } from './soak/day.ts';
import { soakJob } from './soak/job.ts';

const { values: options } = parseArgs({
  options: {
    minutes: { type: 'string', default: '480' },
    seed: { type: 'string', default: '1' },
    mode: { type: 'string', default: 'open' },
    within: { type: 'string', default: 'Infinity' },
    every: { type: 'string', default: '15' },
    fresh: { type: 'boolean', default: false },
  },
});
const RATE_HZ = 16_000;
/** What a worklet hands over at a time: 20 ms. */
const PIECE = 320;
const FRAMES_A_LEVEL = 10;
const seed = Number(options.seed);
const mode = options.mode as ListeningMode;
const withinMs = Number(options.within) * 60_000;
const say = (line: string): void => void process.stdout.write(`${line}\n`);

setFlagsFromString('--expose_gc');
const collect = runInNewContext('gc') as () => void;

/** How far the run has come, kept between processes. `memory` is of the process that is running. */
type Reading = {
  readonly process: number;
  readonly minute: number;
  readonly inUseMb: number;
  /** In the moment that is the same each time; absent in readings of before it was taken. */
  readonly alikeMb?: number;
  readonly residentMb: number;
};
type Run = {
  stretches: number;
  samples: number;
  levels: number;
  faults: number;
  processes: number;
  workedMs: number;
  readonly seconds: Record<Kind, number>;
  readonly heard: Record<'utterances' | 'commands' | 'right' | 'misheard' | 'falseAccepts', number>;
  readonly falseIn: Record<Kind, number>;
  readonly memory: Reading[];
};
const noKind = (): Record<Kind, number> => ({ command: 0, 'command in a cut': 0, talk: 0, cut: 0, silence: 0 });
const file = `${root}/.cache/soak-${mode}-${seed}.json`;
if (options.fresh) rmSync(file, { force: true });
const run: Run = existsSync(file)
  ? (JSON.parse(readFileSync(file, 'utf8')) as Run)
  : {
      stretches: 0,
      samples: 0,
      levels: 0,
      faults: 0,
      processes: 0,
      workedMs: 0,
      seconds: noKind(),
      heard: { utterances: 0, commands: 0, right: 0, misheard: 0, falseAccepts: 0 },
      falseIn: noKind(),
      memory: [],
    };
run.processes += 1;

const day = await soakDay(seed, mode === 'call' ? CALL_NAME : null);
const job = await soakJob();
let current: { readonly kind: Kind; readonly said: string | null } = { kind: 'silence', said: null };
/** What this process was given, and what it gave back: the ear starts anew with it. */
let samplesHere = 0;
let levelsHere = 0;
const accepted: string[] = [];
const begun = performance.now();
const workedMs = (): number => performance.now() - begun;
/** Time of the sound and, on top, of the work: so the ear sees what its own looks cost, as it does live. */
const nowMs = (): number => (samplesHere / RATE_HZ) * 1000 + workedMs();

function onEvent(event: EarEvent): void {
  if (event.type === 'level') levelsHere += 1;
  else if (event.type === 'fault') {
    run.faults += 1;
    say(`fault in ${event.part}: ${event.message}`);
  } else if (event.type === 'hypothesis') {
    run.heard.utterances += 1;
    const { hypothesis } = event;
    if (!hypothesis.accepted) return;
    accepted.push(hypothesis.text);
    if (current.said === null) {
      run.heard.falseAccepts += 1;
      run.falseIn[current.kind] += 1;
    } else if (hypothesis.text.endsWith(current.said)) run.heard.right += 1;
    else run.heard.misheard += 1;
  }
}

const { model, files } = await assembleModel(engineNamed(await packagedManifest(), null), vocabulary());
const recogniser = await openEngine(model, files);
const listener = new Listener({ recogniser, callName: CALL_NAME, now: nowMs, emit: onEvent });
listener.setGrammar(grammarFor(job.context()));
listener.setMode(mode);

/** Pushes sound as the worklet does, room tone under it, and lets the ear finish what it has begun. */
async function hear(sound: Float32Array, random: () => number): Promise<void> {
  for (let at = 0; at < sound.length; at += PIECE) {
    const piece = new Float32Array(PIECE);
    piece.set(sound.subarray(at, at + PIECE));
    for (let index = 0; index < PIECE; index += 1) piece[index]! += (random() - 0.5) * 0.002;
    samplesHere += PIECE;
    listener.push(piece);
    // A look at an open utterance is worked on between the pieces, as it is in the worker.
    if (at % (PIECE * 10) === 0) await listener.settled();
  }
  await listener.settled();
}

const lostHere = (): number => Math.floor(samplesHere / (RATE_HZ / 100) / FRAMES_A_LEVEL) - levelsHere;
const total = Number(options.minutes) * 60 * RATE_HZ;
const reportEvery = Number(options.every) * 60 * RATE_HZ;
const had = { samples: run.samples, levels: run.levels, workedMs: run.workedMs };
let lost = 0;
function keep(): void {
  mkdirSync(`${root}/.cache`, { recursive: true });
  writeFileSync(file, JSON.stringify(run));
}
/** What is in use once collections, with pauses for finalisers, free nothing more. */
async function inUseMb(): Promise<number> {
  let before = Infinity;
  for (let round = 0; round < 8; round += 1) {
    collect();
    await new Promise((resolve) => setTimeout(resolve, 50));
    const { heapUsed, external } = process.memoryUsage();
    const now = (heapUsed + external) / 1e6;
    if (before - now < 0.05) return now;
    before = now;
  }
  return before;
}
/** More grammars than any cache of the ear keeps, and what moves a job through so many. */
const ALIKE_GRAMMARS = 12;
const ALIKE_WORDS = ['mike one two six three', 'next', 'mike one two fifty', 'next', 'yes', 'next', 'reads six twenty seven'];
/** Brings the ear into a moment that is the same each time: the grammars of the same job, one after the other. */
async function alike(): Promise<void> {
  const same = await soakJob();
  const keys = new Set<string>();
  for (let at = 0; keys.size < ALIKE_GRAMMARS; at += 1) {
    if (at === 100) throw new Error(`only ${keys.size} grammars differ: the caches are not filled anew`);
    const grammar = grammarFor(same.context());
    if (!keys.has(grammar.key)) {
      keys.add(grammar.key);
      listener.setGrammar(grammar);
      await recogniser.open(grammar);
      await recogniser.finish();
    }
    await same.hear(ALIKE_WORDS[at % ALIKE_WORDS.length]!);
  }
}
async function report(): Promise<void> {
  const asItComes = await inUseMb();
  await alike();
  const alikeMb = await inUseMb();
  listener.setGrammar(grammarFor(job.context()));
  const minute = Math.round(run.samples / RATE_HZ / 60);
  const residentMb = process.memoryUsage().rss / 1e6;
  run.memory.push({ process: run.processes, minute, inUseMb: asItComes, alikeMb, residentMb });
  const { heard } = run;
  say(
    [
      minute,
      asItComes.toFixed(1),
      alikeMb.toFixed(1),
      residentMb.toFixed(0),
      heard.utterances,
      `${heard.right} of ${heard.commands}`,
      heard.misheard,
      heard.falseAccepts,
      lostHere(),
      (samplesHere / RATE_HZ / (workedMs() / 1000)).toFixed(1),
    ].join(' | '),
  );
  keep();
}

say(
  'minutes | in use as it comes MB | alike MB | resident MB | utterances | right of commands | misheard | false accepts | frames lost | times real time',
);
/** Hears the next stretch of the day. In a function, so that its sound, up to 10 MB, is gone before the memory is read. */
async function hearStretch(): Promise<void> {
  // Each stretch from a seed of its own, so that a run that is taken up again hears the same day.
  const random = seeded(mixSeed(seed, run.stretches));
  const next = day.stretch(random);
  current = { kind: next.kind, said: next.said };
  if (next.said !== null) run.heard.commands += 1;
  await hear(next.sound, random);
  // A pause after each, long enough for the ear to be sure; what is heard of it belongs to the stretch before.
  await hear(new Float32Array(Math.floor(1.2 * RATE_HZ)), random);
  run.stretches += 1;
  run.seconds[next.kind] += next.sound.length / RATE_HZ + 1.2;
  run.samples = had.samples + samplesHere;
  run.levels = had.levels + levelsHere;
  run.workedMs = had.workedMs + workedMs();
}

let nextReport = samplesHere + reportEvery / 3;
while (run.samples < total && workedMs() < withinMs) {
  await hearStretch();
  if (accepted.length > 0) {
    for (const words of accepted.splice(0)) await job.hear(words);
    listener.setGrammar(grammarFor(job.context()));
  }
  if (samplesHere < nextReport) continue;
  nextReport = samplesHere + reportEvery;
  await report();
}
await report();
recogniser.close();
lost = lostHere();

/** Least squares through the readings of one process: megabytes an hour of sound, and twice the standard error of that. */
function slope(readings: readonly Reading[]): string {
  const points = readings.map((each) => ({ t: each.minute / 60, m: each.alikeMb ?? each.inUseMb }));
  const mean = (of: 't' | 'm'): number => points.reduce((sum, each) => sum + each[of], 0) / points.length;
  const [t, m] = [mean('t'), mean('m')];
  const under = points.reduce((sum, each) => sum + (each.t - t) ** 2, 0);
  if (points.length < 3 || under === 0) return 'too few readings for a slope';
  const rise = points.reduce((sum, each) => sum + (each.t - t) * (each.m - m), 0) / under;
  const left = points.reduce((sum, each) => sum + (each.m - m - rise * (each.t - t)) ** 2, 0);
  return `${rise.toFixed(2)} ± ${(2 * Math.sqrt(left / (points.length - 2) / under)).toFixed(2)} MB an hour`;
}
const own = run.memory.filter((each) => each.process === run.processes);
const settled = own.slice(Math.min(2, Math.max(0, own.length - 1)));
const judged = settled.map((each) => each.alikeMb ?? each.inUseMb);
const from = judged[0] ?? NaN;
const growth = Math.max(...judged.map((mb) => Math.abs(mb - from) / from));
const hours = run.samples / RATE_HZ / 3600;
const share = (kind: Kind): string => `${kind} ${((100 * run.seconds[kind]) / (run.samples / RATE_HZ)).toFixed(1)} %`;
const { heard } = run;
say(
  `${hours.toFixed(2)} hours in ${run.processes} processes (seed ${seed}, ${mode}), ${(run.workedMs / 60_000).toFixed(0)} min of work: ` +
    `memory of this one within ${(growth * 100).toFixed(1)} % of ${from.toFixed(1)} MB at moments alike, ${slope(settled)}, ` +
    `frames in ${Math.floor(samplesHere / (RATE_HZ / 100))}, lost ${lost}, faults ${run.faults}`,
);
say(`of the time: ${(Object.keys(run.seconds) as Kind[]).map(share).join(', ')}`);
say(
  `false accepts ${heard.falseAccepts} (${(heard.falseAccepts / hours).toFixed(1)} an hour: ` +
    `${(Object.keys(run.falseIn) as Kind[]).map((kind) => `${kind} ${run.falseIn[kind]}`).join(', ')}), ` +
    `commands right ${heard.right} of ${heard.commands}, misheard ${heard.misheard}`,
);
process.exitCode = growth <= 0.05 && lost === 0 && run.faults === 0 ? 0 : 1;
