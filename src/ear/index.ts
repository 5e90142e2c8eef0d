export type { HeardWord, HearingRefusal, Hypothesis, Recogniser } from './recogniser.ts';
export { EngineFault, SURE_FROM } from './recogniser.ts';
export type { EarEvent, EarPart, HearingTimes, ListeningMode } from './ear-event.ts';
export { createEar, type Clip, type Ear, type EarOptions } from './ear.ts';
export { earSettingsIn, FIRST_EAR_SETTINGS, type EarSettings, type KeptEarSettings } from './settings.ts';
export { fitPersonal, SETUP_PHRASES, WARPS, type Personal, type Take, type View } from './personal/index.ts';
export { describeTrouble, TroubleWatch, type HearingTrouble } from './trouble.ts';
export { MicrophoneError, type MicrophoneFault } from './microphone-fault.ts';
export { Listener, type ListenerOptions } from './listener.ts';
export { WINDOW_MS } from './call-window.ts';
export { following, PATIENCE_MS, type Following } from './following.ts';
export type { Level } from './meter.ts';
export { describeWavFault, readWav, writeWav, type Wav, type WavFault } from './wav.ts';
export { EAR_RATE_HZ, resample } from './resample.ts';
export { accepts, wordGraph, wordsOf, type WordGraph } from './word-graph.ts';
export { cutDictionary, readPronunciations } from './lexicon.ts';
export {
  engineNamed,
  loadFiles,
  readManifest,
  sha256,
  type EngineModel,
  type ModelFiles,
  type ModelManifest,
} from './manifest.ts';
export { openEngine } from './engines.ts';
export { hearSound, utterancesOf, type FileEnds } from './hear-file.ts';
export { afterName, calledGrammar, callGrammar } from './call-name.ts';
