import type { Tone } from '../job/index.ts';
import type { Spoken } from '../phrasebook/index.ts';
import { assemble, END_MS, type AnswerPart } from './assemble.ts';
import type { ClipBook } from './clip-book.ts';
import { planAnswer } from './plan-answer.ts';
import type { DeviceVoice, PlayEnd, Player, Playing } from './player.ts';
import {
  FIRST_SETTINGS, LOUDNESS, STRETCH, withLoudness, withSlowerPace, type KeptSettings, type VoiceSettings,
} from './settings.ts';
import { toneSound } from './tones.ts';

/**
 * What became of an answer. `spoken` to its end; `cut-short` by `hush` or a newer answer; `locked` when the browser allows no
 * sound before a touch; `failed` when the device would not play it; `nothing` when there was nothing to sound. `unspoken` are
 * the lines that no clip and no voice of the device could say: the screen shows them. `firstSampleAt` is in the page's clock.
 */
export type SpokenOutcome = {
  readonly end: 'spoken' | 'cut-short' | 'locked' | 'failed' | 'nothing';
  readonly firstSampleAt: number | null;
  readonly unspoken: readonly string[];
};

/** Told when the page begins to sound, before its first sample, and when the room is quiet again. */
export type SpeakingListener = (speaking: boolean) => void;

export interface Speaker {
  /** Says an answer, a newer one cutting an older one short; resolves when it has ended. Never rejects. */
  say(spoken: readonly Spoken[], tone: Tone | null): Promise<SpokenOutcome>;
  /** A tone alone, as an answer without words. */
  tone(tone: Tone): Promise<SpokenOutcome>;
  /** Cuts what is being said short. */
  hush(): void;
  louder(): VoiceSettings;
  quieter(): VoiceSettings;
  slower(): VoiceSettings;
  readonly settings: VoiceSettings;
  setSettings(settings: VoiceSettings): void;
  readonly speaking: boolean;
  /** Returns the way to stop listening. */
  onSpeaking(listener: SpeakingListener): () => void;
  /** Within the first touch or key press; resolves with whether the page may sound. */
  unlock(): Promise<boolean>;
  readonly unlocked: boolean;
  close(): void;
}

export type SpeakerDeps = {
  readonly clips: ClipBook;
  readonly player: Player;
  /** Asked for at each answer: browsers find their voices some time after the page has started. */
  readonly deviceVoice: () => DeviceVoice | null;
  readonly kept: KeptSettings;
  readonly wait: (ms: number) => Promise<void>;
};

/**
 * How long the ear stays deaf after the last sample has left the loudspeaker, in milliseconds, for the room to fall quiet.
 * Short, for an answer to a question comes at once: a person takes about 200 ms to begin (S. Levinson and F. Torreira,
 * "Timing in turn-taking", Frontiers in Psychology 6, 2015). The silence at the end of each sound counts towards it.
 */
export const TAIL_MS = 120;

/**
 * The voice of the page. Invariants: at most one answer sounds; `onSpeaking` tells true before the first sample of an answer
 * and false a latency and a tail after its last, once each however many answers follow one another; whatever the device does,
 * an answer ends, so the ear is never left deaf.
 */
export function createSpeaker(deps: SpeakerDeps): Speaker {
  const { clips, player, kept } = deps;
  const listeners = new Set<SpeakingListener>();
  let settings = kept.read() ?? FIRST_SETTINGS;
  let speaking = false;
  let turn = 0;
  let current: Playing | null = null;

  const tell = (value: boolean): void => {
    if (speaking === value) return;
    speaking = value;
    for (const listener of [...listeners]) listener(value);
  };

  const keep = (next: VoiceSettings): VoiceSettings => {
    settings = next;
    kept.write(next);
    return next;
  };

  const begin = (part: AnswerPart, device: DeviceVoice | null): Playing | null => {
    const loudness = LOUDNESS[settings.loudness] ?? 1;
    if (part.part === 'sound') return player.play(part.sound, loudness);
    return device === null ? null : device.speak(part.text, loudness, STRETCH[settings.pace] ?? 1);
  };

  /** Ends the turn before, and takes the next; what belongs to an older turn then stops by itself. */
  const takeTurn = (): number => {
    turn += 1;
    current?.stop();
    current = null;
    return turn;
  };

  const restAfter = async (mine: number): Promise<void> => {
    await deps.wait(player.latencyMs + TAIL_MS - END_MS);
    if (turn === mine) tell(false);
  };

  const speak = async (spoken: readonly Spoken[], tone: Tone | null): Promise<SpokenOutcome> => {
    const mine = takeTurn();
    const device = deps.deviceVoice();
    const steps = planAnswer(spoken, clips, device !== null);
    const unspoken = steps.flatMap((step) => (step.step === 'unspoken' ? [step.text] : []));
    const parts = assemble(steps, clips, tone === null ? null : toneSound(tone), STRETCH[settings.pace] ?? 1);
    if (parts.length === 0) {
      if (speaking) void restAfter(mine);
      return { end: 'nothing', firstSampleAt: null, unspoken };
    }
    if (!player.unlocked && !(await player.unlock())) {
      if (turn === mine && speaking) void restAfter(mine);
      return { end: turn === mine ? 'locked' : 'cut-short', firstSampleAt: null, unspoken };
    }
    if (turn !== mine) return { end: 'cut-short', firstSampleAt: null, unspoken };
    tell(true);
    let firstSampleAt: number | null = null;
    let how: PlayEnd = 'ended';
    for (const part of parts) {
      const playing = begin(part, device);
      if (playing === null) continue;
      current = playing;
      void playing.began.then((at) => {
        firstSampleAt ??= at;
      });
      how = await playing.done;
      if (how !== 'ended' || turn !== mine) break;
    }
    if (turn !== mine) return { end: 'cut-short', firstSampleAt, unspoken };
    current = null;
    await restAfter(mine);
    return { end: how === 'failed' ? 'failed' : how === 'stopped' ? 'cut-short' : 'spoken', firstSampleAt, unspoken };
  };

  return {
    say: speak,
    tone: (tone) => speak([], tone),
    hush() {
      const mine = takeTurn();
      if (speaking) void restAfter(mine);
    },
    louder: () => keep(withLoudness(settings, 1)),
    quieter: () => keep(withLoudness(settings, -1)),
    slower: () => keep(withSlowerPace(settings)),
    get settings() {
      return settings;
    },
    setSettings(next) {
      keep(next);
    },
    get speaking() {
      return speaking;
    },
    onSpeaking(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    unlock: () => player.unlock(),
    get unlocked() {
      return player.unlocked;
    },
    close() {
      takeTurn();
      tell(false);
      listeners.clear();
      player.close();
    },
  };
}
