/**
 * Which voice, pace, tilt and sample rate: numbers of the shop, joined from clips as an answer is, in machine-like noise, given
 * to a recogniser that knows only number words. It is no human ear; it ranks what can be chosen.
 * Run: npx tsx scripts/clips/compare-voices.ts (about two minutes)
 */
import { join, dirname } from 'node:path';
import { createRequire } from 'node:module';
import createModule from 'soundswallower';
import { samplesIn, VOICE_RATE_HZ } from '../../src/voice/index.ts';
import { openSynthesiser } from './flite.ts';
import { ADDED_PRONUNCIATIONS } from './pronunciations.ts';
import { treated } from './treat.ts';

const UNITS = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];
const TEENS = ['ten', 'eleven', 'twelve', 'thirteen', 'fourteen', 'fifteen', 'sixteen', 'seventeen', 'eighteen', 'nineteen'];
const TENS = ['twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'];
const NUMBER_WORDS = [...UNITS, ...TEENS, ...TENS, 'oh', 'hundred', 'point'];

/** Numbers as they are spoken; a clip is a space apart, a hyphen joins two words into one clip. */
const NUMBERS = [
  'six twenty-seven', 'six twenty', 'two fifty', 'one point two six oh', 'three seventy-five', 'seven eighty-eight', 'one three twelve',
  'nineteen oh five', 'twenty-five four', 'oh forty', 'nine ninety-nine', 'four fifteen', 'four fifty', 'eight thirteen', 'eight thirty',
  'one hundred five', 'five sixteen', 'point five nine four', 'six sixty-six', 'one oh thirty', 'eighteen eighty', 'five fifty-five',
];
const SNR_DB = [40, 20, 10, 5];

/** What is compared: first the voices as they are, then what can be done with the best. */
const VARIANTS = [
  ...['slt', 'rms', 'awb', 'kal16'].map((voice) => ({ voice, stretch: 1, preEmphasis: 0, rateHz: VOICE_RATE_HZ })),
  { voice: 'rms', stretch: 1, preEmphasis: 0, rateHz: 8_000 },
  { voice: 'rms', stretch: 0.85, preEmphasis: 0, rateHz: VOICE_RATE_HZ },
  { voice: 'rms', stretch: 0.85, preEmphasis: 0.5, rateHz: VOICE_RATE_HZ },
  { voice: 'rms', stretch: 0.85, preEmphasis: 0.7, rateHz: VOICE_RATE_HZ },
  { voice: 'rms', stretch: 0.85, preEmphasis: 0.7, rateHz: 8_000 },
  { voice: 'rms', stretch: 0.85, preEmphasis: 0.8, rateHz: VOICE_RATE_HZ },
  { voice: 'rms', stretch: 0.85, preEmphasis: 0.9, rateHz: VOICE_RATE_HZ },
  { voice: 'slt', stretch: 1, preEmphasis: 0.7, rateHz: VOICE_RATE_HZ },
];

/** Repeatable noise from a 32-bit linear congruential generator, leaning to low frequencies as a machine's does. */
function machineNoise(length: number, seed: number): Float32Array {
  let state = seed >>> 0;
  let slow = 0;
  return Float32Array.from({ length }, (_, at) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    const white = state / 2 ** 31 - 1;
    slow = 0.95 * slow + white;
    return 0.25 * slow + 0.35 * white + 0.3 * Math.sin((2 * Math.PI * 118 * at) / VOICE_RATE_HZ);
  });
}

const power = (sound: Float32Array): number => sound.reduce((sum, value) => sum + value * value, 0) / sound.length;

function inNoise(sound: Float32Array, snrDb: number, seed: number): Float32Array {
  const lead = samplesIn(250);
  const noise = machineNoise(sound.length + 2 * lead, seed);
  const gain = Math.sqrt(power(sound) / power(noise) / 10 ** (snrDb / 10));
  return noise.map((value, at) => 0.25 * (value * gain + (sound[at - lead] ?? 0)));
}

/** What a sample rate of 8 kHz would leave: a windowed-sinc low pass at 3.7 kHz. */
function telephone(sound: Float32Array): Float32Array {
  const reach = 48;
  const cutoff = (2 * 3700) / VOICE_RATE_HZ;
  const taps = Array.from({ length: 2 * reach + 1 }, (_, at) => {
    const x = at - reach;
    const sinc = x === 0 ? cutoff : Math.sin(Math.PI * cutoff * x) / (Math.PI * x);
    return sinc * (0.5 + 0.5 * Math.cos((Math.PI * x) / (reach + 1)));
  });
  return sound.map((_, at) => taps.reduce((sum, tap, k) => sum + tap * (sound[at + k - reach] ?? 0), 0));
}

/** Words wrong: the edit distance of two word lists. */
function wordErrors(said: readonly string[], heard: readonly string[]): number {
  let row = heard.map((_, at) => at + 1);
  said.forEach((word, i) => {
    let diagonal = i;
    let left = i + 1;
    row = row.map((above, j) => {
      const cost = Math.min(above + 1, left + 1, diagonal + (word === heard[j] ? 0 : 1));
      diagonal = above;
      left = cost;
      return cost;
    });
  });
  return row.at(-1) ?? said.length;
}

const modelFolder = join(dirname(createRequire(import.meta.url).resolve('soundswallower')), 'model');
const soundswallower = await createModule({ modelBase: `${modelFolder}/` } as never);
const decoder = new soundswallower.Decoder({ loglevel: 'FATAL', samprate: VOICE_RATE_HZ });
await decoder.initialize();
decoder.set_grammar(`#JSGF V1.0; grammar n; public <n> = (${NUMBER_WORDS.join(' | ')})+;`);

function heard(sound: Float32Array): readonly string[] {
  decoder.start();
  decoder.process_audio(sound, false, true);
  decoder.stop();
  return decoder.get_text().split(' ').filter((word) => word !== '');
}

for (const { voice, stretch, preEmphasis, rateHz } of VARIANTS) {
  const synthesiser = await openSynthesiser(voice, stretch, ADDED_PRONUNCIATIONS.join('\n'));
  const clips = new Map<string, Float32Array>();
  for (const key of new Set(NUMBERS.flatMap((number) => number.split(' '))))
    clips.set(key, treated(await synthesiser.render(key.replace('-', ' ')), preEmphasis));
  synthesiser.close();
  const pause = samplesIn(45);
  let seconds = 0;
  const answers = NUMBERS.map((number) => {
    const parts = number.split(' ').map((key) => clips.get(key)!);
    const sound = new Float32Array(parts.reduce((sum, part) => sum + part.length + pause, 0));
    let at = 0;
    for (const part of parts) {
      sound.set(part, at);
      at += part.length + pause;
    }
    seconds += sound.length / VOICE_RATE_HZ;
    return { words: number.replaceAll('-', ' ').split(' '), sound };
  });
  const total = answers.reduce((sum, answer) => sum + answer.words.length, 0);
  const through = rateHz < VOICE_RATE_HZ ? telephone : (sound: Float32Array) => sound;
  const cells = SNR_DB.map((snrDb) => {
    const wrong = answers.reduce((sum, { words, sound }, at) => {
      const noisy = inNoise(through(sound), snrDb, 1000 + at);
      return sum + wordErrors(words, heard(noisy));
    }, 0);
    return `${((100 * wrong) / total).toFixed(0)} %`.padStart(6);
  });
  const variant = `${voice.padEnd(5)} pace ${stretch.toFixed(2)} tilt ${preEmphasis.toFixed(1)} ${(rateHz / 1000).toFixed(0).padStart(2)} kHz`;
  process.stdout.write(`${variant}  ${(seconds / total).toFixed(2)} s a word  words wrong at ${SNR_DB.join(', ')} dB: ${cells.join('')}\n`);
}
