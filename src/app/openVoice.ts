import { LOUDNESS, openSpeaker, type VoiceSettings } from '../voice/index.ts';
import type { VoicePort } from './ports.ts';

/** The page's voice. Without its clips it still has its tones and the device's own voice; `trouble` then says so. */
export async function openVoice(base: string, now: () => number, pressed: Promise<void>): Promise<VoicePort> {
  const { speaker, fault } = await openSpeaker(base, now, pressed);
  const volumeOf = (settings: VoiceSettings): number => LOUDNESS[settings.loudness] ?? 1;
  return {
    trouble: fault === null ? null : `The voice clips cannot be used (${fault.fault}). The tones and the screen still answer.`,
    get volume() {
      return volumeOf(speaker.settings);
    },
    get settings() {
      return speaker.settings;
    },
    set: (settings) => speaker.setSettings(settings),
    say: (spoken, tone) => speaker.say(spoken, tone),
    hush: () => speaker.hush(),
    louder: () => volumeOf(speaker.louder()),
    quieter: () => volumeOf(speaker.quieter()),
    slower: () => void speaker.slower(),
    unlock: () => speaker.unlock(),
    onSpeaking: (listener) => speaker.onSpeaking(listener),
  };
}
