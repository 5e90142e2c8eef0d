import type { SearchSettings } from './soundswallower-decoder.ts';

/** The search for phrases; chosen on the training part of the real speech (docs/ear.md has the table). */
export const WORD_SEARCH: SearchSettings = {
  languageWeight: 1,
  wordPenalty: -18,
  silence: 0.005,
  filler: 1e-8,
  beam: 1e-30,
  wordBeam: 1e-20,
};

/** The search over the loop of phones: a narrower beam, since only its score is used. */
export const LOOP_SEARCH: SearchSettings = { ...WORD_SEARCH, wordPenalty: Math.log(0.65), beam: 1e-20, wordBeam: 1e-12 };

/**
 * What the evidence of an utterance weighs, in natural logarithms of the odds that its words are right: a logistic regression
 * over the training part of the real speech and synthetic phrases (docs/ear.md). Levels are in decibels, scores in natural
 * logarithms a frame.
 */
export const CONFIDENCE = {
  bias: -0.543,
  overLoopPerSpokenFrame: 0.1835,
  overLoopPerFrame: 3.0277,
  logSpokenFrames: 0.2508,
  words: -0.8211,
  scorePerFrame: -1.0137,
  aboveQuietDb: 0.009,
  aboveRestDb: 0.0362,
  spokenFramesPerWord: -0.0387,
} as const;

/** Confidence from which words are accepted. */
export const ACCEPT_FROM = 0.35;
