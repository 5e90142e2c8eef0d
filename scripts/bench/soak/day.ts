import { makeNoise, NOISE_KINDS } from '../../../src/cli/noise/kinds.ts';
import { seeded } from '../../../src/cli/noise/random.ts';
import { openSynthesiser } from '../../clips/flite.ts';

const RATE_HZ = 16_000;

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

/** One stretch of the day: its kind, its sound, and what was said to the page in it. */
export type Kind = 'command' | 'command in a cut' | 'talk' | 'cut' | 'silence';
export type Stretch = { readonly kind: Kind; readonly sound: Float32Array; readonly said: string | null };

/**
 * An invented day at the lathe, a stretch at a time: of a hundred stretches 33 commands, 7 of talk, 40 of silence (10 to 120
 * seconds: measuring, setting, thinking), 12 cuts (20 to 150 seconds) and 8 cuts with a command in the middle. So about a
 * twenty-fifth of the time somebody speaks, a good third a machine runs, and the rest is the quiet room. `name` goes before each
 * command.
 */
export async function soakDay(seed: number, name: string | null): Promise<{ stretch(random: () => number): Stretch }> {
  const synthesiser = await openSynthesiser('rms', 1, '"thou" nil : th aw1\n');
  const spoken = async (words: string): Promise<Float32Array> =>
    (await synthesiser.render(words)).sound.map((sample) => sample * 0.4);
  const commands: { readonly words: string; readonly sound: Float32Array }[] = [];
  for (const words of COMMANDS) commands.push({ words, sound: await spoken(name === null ? words : `${name} ${words}`) });
  const talk: Float32Array[] = [];
  for (const words of TALK) talk.push(await spoken(words));
  synthesiser.close();

  const seconds = (length: number): number => Math.floor(length * RATE_HZ);
  /** Twenty seconds of each noise, made once: a cut is one of them, from anywhere in it, as often as it takes. */
  const beds = NOISE_KINDS.map((kind) => makeNoise(kind, seconds(20), seeded(seed)));

  return {
    stretch(random) {
      const one = <T>(of: readonly T[]): T => of[Math.floor(random() * of.length)]!;
      const between = (from: number, to: number): number => from + random() * (to - from);
      function cut(lengthS: number): Float32Array {
        const bed = one(beds);
        const from = Math.floor(random() * bed.length);
        const gain = between(0.005, 0.085);
        return Float32Array.from({ length: seconds(lengthS) }, (_, index) => gain * bed[(from + index) % bed.length]!);
      }
      const drawn = random();
      if (drawn < 0.33) {
        const { sound, words } = one(commands);
        return { kind: 'command', sound, said: words };
      }
      if (drawn < 0.4) return { kind: 'talk', sound: one(talk), said: null };
      if (drawn < 0.8) return { kind: 'silence', sound: new Float32Array(seconds(between(10, 120))), said: null };
      const sound = cut(between(20, 150));
      if (drawn < 0.92) return { kind: 'cut', sound, said: null };
      const saying = one(commands);
      const at = Math.floor(sound.length / 2);
      saying.sound.forEach((sample, index) => (sound[at + index]! += sample));
      return { kind: 'command in a cut', sound, said: saying.words };
    },
  };
}
