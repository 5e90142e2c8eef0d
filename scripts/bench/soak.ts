/**
 * Eight hours at the lathe in accelerated time through the ear of the page (Node, no microphone): cuts of 20 to 150 seconds with
 * the noises of a shop, commands in quiet and in the cut, talk past the page, silence. Memory, frames and false accepts by the
 * half hour. Run: npm run bench -- soak; by itself:
 * npx tsx scripts/bench/soak.ts [--minutes N] [--seed N] [--mode open|call] [--within MINUTES]
 * `--within` ends it after so long a time of work, however far it has come.
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
    within: { type: 'string', default: 'Infinity' },
  },
});
const RATE_HZ = 16_000;
/** What a worklet hands over at a time: 20 ms. */
const PIECE = 320;
const FRAMES_A_LEVEL = 10;
const minutes = Number(options.minutes);
const mode = options.mode as ListeningMode;
const random = seeded(Number(options.seed));
const withinMs = Number(options.within) * 60_000;
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
type Saying = { readonly words: string; readonly sound: Float32Array };
const commands: Saying[] = [];
for (const words of COMMANDS) commands.push({ words, sound: await spoken(mode === 'call' ? `${CALL_NAME} ${words}` : words) });
const talk: Saying[] = [];
for (const words of TALK) talk.push({ words, sound: await spoken(words) });
synthesiser.close();

const one = <T>(of: readonly T[]): T => of[Math.floor(random() * of.length)]!;
const between = (from: number, to: number): number => from + random() * (to - from);
const seconds = (length: number): number => Math.floor(length * RATE_HZ);

/** Twenty seconds of each noise, made once: a cut is one of them, from anywhere in it, as often as it takes. */
const beds = NOISE_KINDS.map((each) => makeNoise(each, seconds(20), random));
function cut(lengthS: number): Float32Array {
  const bed = one(beds);
  const from = Math.floor(random() * bed.length);
  const gain = between(0.005, 0.085);
  return Float32Array.from({ length: seconds(lengthS) }, (_, index) => gain * bed[(from + index) % bed.length]!);
}

/** One stretch of the day: its kind, its sound, and what was said to the page in it. Room tone lies under all of it. */
type Kind = 'command' | 'command in a cut' | 'talk' | 'cut' | 'silence';
type Stretch = { readonly kind: Kind; readonly sound: Float32Array; readonly said: string | null };
function stretch(): Stretch {
  const drawn = random();
  if (drawn < 0.3) {
    const { sound, words } = one(commands);
    return { kind: 'command', sound, said: words };
  }
  if (drawn < 0.4) return { kind: 'talk', sound: one(talk).sound, said: null };
  if (drawn < 0.7) return { kind: 'silence', sound: new Float32Array(seconds(between(5, 40))), said: null };
  const sound = cut(between(20, 150));
  if (drawn < 0.85) return { kind: 'cut', sound, said: null };
  const saying = one(commands);
  const at = Math.floor(sound.length / 2);
  saying.sound.forEach((sample, index) => (sound[at + index]! += sample));
  return { kind: 'command in a cut', sound, said: saying.words };
}

let samplesIn = 0;
let levels = 0;
let faults = 0;
let said: string | null = null;
/** `misheard`: other words were taken where a command was said, or in the cut about it; `falseAccepts`: nothing was said. */
const heard = { utterances: 0, right: 0, misheard: 0, falseAccepts: 0, commands: 0 };
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
    const { accepted, text } = event.hypothesis;
    if (!accepted) return;
    if (said === null) heard.falseAccepts += 1;
    else if (text.endsWith(said)) heard.right += 1;
    else heard.misheard += 1;
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
say('minutes | memory MB | utterances | right of commands | misheard | false accepts | frames lost | times real time');
const frameCount = (): number => Math.floor(samplesIn / (RATE_HZ / 100));
const workedMs = (): number => performance.now() - begun;
while (samplesIn < total && workedMs() < withinMs) {
  const next = stretch();
  said = next.said;
  if (said !== null) heard.commands += 1;
  await hear(next.sound);
  // A pause after each, long enough for the ear to be sure; what is heard of it belongs to the stretch before.
  await hear(new Float32Array(Math.floor(1.2 * RATE_HZ)));
  if (samplesIn < nextReport && samplesIn < total && workedMs() < withinMs) continue;
  nextReport += reportEvery;
  memory.push({ at: samplesIn, mb: inUseMb() });
  const lost = Math.floor(frameCount() / FRAMES_A_LEVEL) - levels;
  const faster = samplesIn / RATE_HZ / (workedMs() / 1000);
  say(
    [
      (samplesIn / RATE_HZ / 60).toFixed(0),
      memory.at(-1)!.mb.toFixed(1),
      heard.utterances,
      `${heard.right} of ${heard.commands}`,
      heard.misheard,
      heard.falseAccepts,
      lost,
      faster.toFixed(1),
    ].join(' | '),
  );
}
recogniser.close();

const settled = memory.filter(({ at }) => at >= samplesIn / 10);
const from = settled[0]?.mb ?? NaN;
const growth = Math.max(...settled.map(({ mb }) => Math.abs(mb - from) / from));
const lost = Math.floor(frameCount() / FRAMES_A_LEVEL) - levels;
const hours = samplesIn / RATE_HZ / 3600;
say(
  `${hours.toFixed(2)} hours (seed ${options.seed}, ${mode}): memory within ${(growth * 100).toFixed(1)} % of ${from.toFixed(1)} MB, ` +
    `frames lost ${lost}, faults ${faults}, false accepts ${heard.falseAccepts} (${(heard.falseAccepts / hours).toFixed(2)} an hour), ` +
    `commands right ${heard.right} of ${heard.commands}, misheard ${heard.misheard}`,
);
process.exitCode = growth <= 0.05 && lost === 0 && faults === 0 ? 0 : 1;
