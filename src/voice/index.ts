export { createSpeaker, TAIL_MS, type Speaker, type SpeakerDeps, type SpeakingListener, type SpokenOutcome } from './speaker.ts';
export { CLIP_LIST, CLIP_SPRITE } from './fetch-clips.ts';
export { loadClips, openSpeaker, type OpenedSpeaker } from './open-speaker.ts';
export { NO_CLIPS, openClips, clipListSchema, type ClipBook, type ClipFault, type ClipList, type ClipPlace } from './clip-book.ts';
export { clipKey, clipWords, sentencesOf, type SpokenSentence } from './clip-words.ts';
export { fewestClips, planAnswer, type AnswerStep, type PausePlace } from './plan-answer.ts';
export { assemble, END_MS, PAUSE_MS, type AnswerPart } from './assemble.ts';
export { TONE_PEAK, TONES, toneSound, type Note } from './tones.ts';
export { stretched } from './stretch.ts';
export { adpcmBytes, decodeAdpcm, encodeAdpcm } from './adpcm.ts';
export { wavBytes, wavDataUri } from './wav.ts';
export { lengthMs, samplesIn, VOICE_RATE_HZ, type Sound } from './sound.ts';
export { howlerPlayer } from './howler-player.ts';
export { deviceVoice, offlineVoice } from './device-voice.ts';
export type { DeviceVoice, PlayEnd, Player, Playing } from './player.ts';
export {
  FIRST_SETTINGS, LOUDNESS, settingsIn, STRETCH, voiceSettingsSchema, withLoudness, withSlowerPace, type KeptSettings,
  type VoiceSettings,
} from './settings.ts';
