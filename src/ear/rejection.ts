import { EAR_RATE_HZ } from './resample.ts';
import { frameLevels, quantile } from './level.ts';
import type { HearingRefusal, Hypothesis } from './recogniser.ts';
import type { Path } from './soundswallower-decoder.ts';
import { ACCEPT_FROM, CONFIDENCE } from './tuning.ts';

/** What both searches made of one utterance at 16 kHz. */
export type Evidence = { readonly samples: Float32Array; readonly words: Path | null; readonly loop: Path | null };

/** Nothing quieter than this is speech into a microphone that works. */
const SILENCE_DB = -62;
const SHORTEST_S = 0.1;
/** The longest phrase of the phrasebook takes half of this, said slowly. */
const LONGEST_S = 15;

/** The first gate of rejection: whether this sound is these words, by the engine's own evidence alone. */
export function judge({ samples, words, loop }: Evidence): Hypothesis {
  const levels = frameLevels(samples, EAR_RATE_HZ);
  const refuse = (reason: HearingRefusal): Hypothesis => hypothesis(words, loop, 0, reason);
  if (quantile(levels, 1) < SILENCE_DB) return refuse('silence');
  const seconds = samples.length / EAR_RATE_HZ;
  if (seconds < SHORTEST_S) return refuse('too-short');
  if (seconds > LONGEST_S) return refuse('too-long');
  if (words === null || loop === null || words.words.length === 0) return refuse('not-in-grammar');
  const confidence = confidenceOf(levels, words, loop);
  return hypothesis(words, loop, confidence, confidence >= ACCEPT_FROM ? null : 'unsure');
}

function hypothesis(words: Path | null, loop: Path | null, confidence: number, reason: HearingRefusal | null): Hypothesis {
  const heard = words?.words ?? [];
  return {
    words: heard,
    text: heard.map((each) => each.word).join(' '),
    confidence,
    accepted: reason === null,
    reason,
    fillerScore: words === null || loop === null ? Infinity : (loop.score - words.score) / Math.max(1, words.frames),
    alternatives: [],
  };
}

function confidenceOf(levels: Float32Array, words: Path, loop: Path): number {
  const spoken: number[] = [];
  const rest: number[] = [];
  levels.forEach((level, index) => {
    const at = (index + 0.5) / 100;
    (words.words.some((word) => at >= word.startS && at < word.endS) ? spoken : rest).push(level);
  });
  const over = words.score - loop.score;
  const spokenDb = spoken.reduce((sum, level) => sum + level, 0) / Math.max(1, spoken.length);
  const odds =
    CONFIDENCE.bias +
    CONFIDENCE.overLoopPerSpokenFrame * (over / Math.max(10, spoken.length)) +
    CONFIDENCE.overLoopPerFrame * (over / Math.max(1, words.frames)) +
    CONFIDENCE.logSpokenFrames * Math.log(spoken.length + 1) +
    CONFIDENCE.words * words.words.length +
    CONFIDENCE.scorePerFrame * (words.score / Math.max(1, words.frames)) +
    CONFIDENCE.aboveQuietDb * (spokenDb - quantile(levels, 0.1)) +
    CONFIDENCE.aboveRestDb * (rest.length === 0 ? 0 : spokenDb - quantile(rest, 0.5)) +
    CONFIDENCE.spokenFramesPerWord * (spoken.length / words.words.length);
  return 1 / (1 + Math.exp(-odds));
}
