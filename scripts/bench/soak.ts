/**
 * Eight hours at the lathe in accelerated time: speech, shop noise, talk and silence through the ear of the page (Node, no
 * microphone), with memory, frames and false accepts by the half hour. Run: npm run bench -- soak; by itself:
 * npx tsx scripts/bench/soak.ts [--minutes N] [--seed N] [--mode open|call]
 *
 * Memory is what is in use after a collection: heap, buffers, the recogniser's own. It must stay within 5 % of what it is
 * after the first tenth of the run. Ends with code 1 where it does not, or where a frame was lost.
 */
import { parseArgs } from 'node:util';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { engineNamed, Listener, openEngine, type EarEvent, type ListeningMode } from '../../src/ear/index.ts';
import { CALL_NAME, fullGrammar, vocabulary } from '../../src/phrasebook/index.ts';
import { assembleModel, packagedManifest } from '../../src/cli/modelFiles.ts';
import { makeNoise, NOISE_KINDS } from '../../src/cli/noise/kinds.ts';
import { seeded } from '../../src/cli/noise/random.ts';
import { openSynthesiser } from '../clips/flite.ts';

const { values: options } = parseArgs({
  options: {
    minutes: { type: 'string', default: '480' },
    seed: { type: 'string', default: '1' },
    mode: { type: 'string', default: 'open' },
  },
});
const RATE_HZ = 16_000;
/** What a worklet hands over at a time: 20 ms. */
const PIECE = 320;
const FRAMES_A_LEVEL = 10;
const minutes = Number(options.minutes);
const mode = options.mode as ListeningMode;
const random = seeded(Number(options.seed));
const say = (line: string): void => void process.stdout.write(`${line}\n`);

setFlagsFromString('--expose_gc');
const collect = runInNewContext('gc') as () => void;
function inUseMb(): number {
  collect();
  const { heapUsed, external } = process.memoryUsage();
  return (heapUsed + external) / 1e6;
}

/** What is said to the page, and what is said past it: the second must never be taken. */
const COMMANDS = [
  'next',
  'reads six twenty seven',
  'how much left',
  'mike one two fifty',
  'what do i dial',
  'scratch that',
  'took four thou',
];
const TALK = [
  'did you see the game on sunday',
  'hand me the big hammer please',
  'the van comes at four',
  'turn the radio down a little',
];

const synthesiser = await openSynthesiser('rms', 1, '"thou" nil : th aw1\n');
async function spoken(words: string): Promise<Float32Array> {
  const { sound } = await synthesiser.render(words);
  return sound.map((sample) => sample * 0.4);
}
const commands: Float32Array[] = [];
for (const words of COMMANDS) commands.push(await spoken(mode === 'call' ? `${CALL_NAME} ${words}` : words));
const talk: Float32Array[] = [];
for (const words of TALK) talk.push(await spoken(words));
synthesiser.close();

/** One stretch of the day: its kind, and its sound. Room tone lies under all of it. */
type Stretch = { readonly kind: 'command' | 'talk' | 'noise' | 'silence'; readonly sound: Float32Array };
const one = <T>(of: readonly T[]): T => of[Math.floor(random() * of.length)]!;
function stretch(): Stretch {
  const drawn = random();
  if (drawn < 0.25) return { kind: 'command', sound: one(commands) };
  if (drawn < 0.4) return { kind: 'talk', sound: one(talk) };
  const length = Math.floor((2 + random() * 18) * RATE_HZ);
  if (drawn < 0.65) return { kind: 'silence', sound: new Float32Array(length) };
  const gain = 0.005 + random() * 0.08;
  return { kind: 'noise', sound: makeNoise(one(NOISE_KINDS), length, random).map((sample) => sample * gain) };
}

let samplesIn = 0;
let levels = 0;
let faults = 0;
let kind: Stretch['kind'] = 'silence';
const heard = { utterances: 0, accepted: 0, falseAccepts: 0, commands: 0 };
const begun = performance.now();
/** Time of the sound and, on top, of the work: so the ear sees what its own looks cost, as it does live. */
const nowMs = (): number => (samplesIn / RATE_HZ) * 1000 + (performance.now() - begun);

function onEvent(event: EarEvent): void {
  if (event.type === 'level') levels += 1;
  else if (event.type === 'fault') {
    faults += 1;
    say(`fault in ${event.part}: ${event.message}`);
  } else if (event.type === 'hypothesis') {
    heard.utterances += 1;
    if (!event.hypothesis.accepted) return;
    if (kind === 'command') heard.accepted += 1;
    else heard.falseAccepts += 1;
  }
}

const { model, files } = await assembleModel(engineNamed(await packagedManifest(), null), vocabulary());
const recogniser = await openEngine(model, files);
const listener = new Listener({ recogniser, callName: CALL_NAME, now: nowMs, emit: onEvent });
listener.setGrammar(fullGrammar);
listener.setMode(mode);

/** Pushes sound as the worklet does, room tone under it, and lets the ear finish what it has begun. */
async function hear(sound: Float32Array): Promise<void> {
  for (let at = 0; at < sound.length; at += PIECE) {
    const piece = new Float32Array(PIECE);
    piece.set(sound.subarray(at, at + PIECE));
    for (let index = 0; index < PIECE; index += 1) piece[index]! += (random() - 0.5) * 0.002;
    samplesIn += PIECE;
    listener.push(piece);
    // A look at an open utterance is worked on between the pieces, as it is in the worker.
    if (at % (PIECE * 10) === 0) await listener.settled();
  }
  await listener.settled();
}

const total = minutes * 60 * RATE_HZ;
const reportEvery = Math.min(30 * 60 * RATE_HZ, Math.max(RATE_HZ * 60, total / 16));
const memory: { readonly at: number; readonly mb: number }[] = [];
let nextReport = reportEvery;
say('minutes | memory MB | utterances | accepted of commands | false accepts | frames lost | times real time');
const frameCount = (): number => Math.floor(samplesIn / (RATE_HZ / 100));
while (samplesIn < total) {
  const next = stretch();
  kind = next.kind;
  if (kind === 'command') heard.commands += 1;
  await hear(next.sound);
  // A pause after each, long enough for the ear to be sure; what is heard of it belongs to the stretch before.
  await hear(new Float32Array(Math.floor(1.2 * RATE_HZ)));
  if (samplesIn < nextReport && samplesIn < total) continue;
  nextReport += reportEvery;
  memory.push({ at: samplesIn, mb: inUseMb() });
  const lost = Math.floor(frameCount() / FRAMES_A_LEVEL) - levels;
  const faster = samplesIn / RATE_HZ / ((performance.now() - begun) / 1000);
  say(
    [
      (samplesIn / RATE_HZ / 60).toFixed(0),
      memory.at(-1)!.mb.toFixed(1),
      heard.utterances,
      `${heard.accepted} of ${heard.commands}`,
      heard.falseAccepts,
      lost,
      faster.toFixed(1),
    ].join(' | '),
  );
}
recogniser.close();

const settled = memory.filter(({ at }) => at >= total / 10);
const from = settled[0]?.mb ?? NaN;
const growth = Math.max(...settled.map(({ mb }) => Math.abs(mb - from) / from));
const lost = Math.floor(frameCount() / FRAMES_A_LEVEL) - levels;
const hours = samplesIn / RATE_HZ / 3600;
say(
  `${hours.toFixed(2)} hours (seed ${options.seed}, ${mode}): memory within ${(growth * 100).toFixed(1)} % of ${from.toFixed(1)} MB, ` +
    `frames lost ${lost}, faults ${faults}, false accepts ${heard.falseAccepts} (${(heard.falseAccepts / hours).toFixed(2)} an hour), ` +
    `commands accepted ${heard.accepted} of ${heard.commands}`,
);
process.exitCode = growth <= 0.05 && lost === 0 && faults === 0 ? 0 : 1;
