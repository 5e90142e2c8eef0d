import type { DeviceVoice, PlayEnd, Playing } from './player.ts';

/** How long a line may take before it is given up, a character and at least: some devices never report an end. */
const GIVE_UP_MS_A_CHARACTER = 200;
const GIVE_UP_LEAST_MS = 4000;

/**
 * A voice that speaks on the device itself, in this language; null when every voice there is would send the text away, or
 * there is none. The system's default comes first.
 */
export function offlineVoice(voices: readonly SpeechSynthesisVoice[], language: string): SpeechSynthesisVoice | null {
  // Android writes en_US where others write en-US.
  const tag = (name: string): string => name.toLowerCase().replace('_', '-');
  const base = (name: string): string => tag(name).split('-')[0] ?? '';
  const fit = voices.filter((voice) => voice.localService && base(voice.lang) === base(language));
  const usual = fit.find((voice) => voice.default) ?? fit.find((voice) => tag(voice.lang) === tag(language));
  return usual ?? fit[0] ?? null;
}

/** The device's own voice behind the player's interface; `voice` must be an offline one. */
export function deviceVoice(synthesis: SpeechSynthesis, voice: SpeechSynthesisVoice, now: () => number): DeviceVoice {
  return {
    speak(text, loudness, stretch): Playing {
      let begin: (at: number | null) => void = () => undefined;
      let end: (how: PlayEnd) => void = () => undefined;
      const began = new Promise<number | null>((resolve) => (begin = resolve));
      const done = new Promise<PlayEnd>((resolve) => (end = resolve));
      const utterance = new SpeechSynthesisUtterance(text);
      utterance.voice = voice;
      utterance.lang = voice.lang;
      utterance.volume = loudness;
      utterance.rate = 1 / stretch;
      let over = false;
      const finish = (how: PlayEnd): void => {
        if (over) return;
        over = true;
        clearTimeout(watch);
        begin(null);
        end(how);
        if (how !== 'ended') synthesis.cancel();
      };
      const watch = setTimeout(() => finish('failed'), Math.max(GIVE_UP_LEAST_MS, text.length * GIVE_UP_MS_A_CHARACTER * stretch));
      utterance.onstart = () => begin(now());
      utterance.onend = () => finish('ended');
      utterance.onerror = () => finish('failed');
      synthesis.speak(utterance);
      return { began, done, stop: () => finish('stopped') };
    },
  };
}
