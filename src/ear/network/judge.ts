import { SURE_FROM, type HearingRefusal, type Hypothesis } from '../recogniser.ts';
import { allBut } from './all-but.ts';
import type { PhoneGraph } from './phone-graph.ts';
import { STEP_S } from './phone-net.ts';
import { bestPath, freeScore, type PhonePath, type PhoneScores, type Search } from './viterbi.ts';

/**
 * The search, chosen on an articulatory synthesiser that training never heard and on the speakers that it kept back.
 * The beam loses nothing against one of 25; speech that is heard rightly keeps at most some 700 phones alive, noise 35 000.
 */
export const SEARCH: Search = { beam: 16, most: 2_000, wordCost: 0, weightScale: 0.5, blankCost: 1.5 };

/**
 * The same for the second best phrase: the best leads its search without being able to end, so what is to be found may lie
 * further behind on the way than at the end.
 */
const SECOND: Search = { ...SEARCH, beam: 26 };

/** What the sound says for and against the words, in natural logarithms. */
export type Evidence = {
  /** How much worse than the likeliest sounds the words explain what was heard. */
  readonly short: number;
  /** How much better than the second best phrase; `FAR_AHEAD` when there is none within the beam. */
  readonly ahead: number;
  readonly phones: number;
};

const FAR_AHEAD = 10;

/**
 * What the evidence weighs, in natural logarithms of the odds that the words are right: a logistic regression by
 * models/training/fit.py over real and synthetic speech that may be used to choose settings.
 */
export const CONFIDENCE = { bias: -1.46, shortAPhone: -1.42, short: 0.01, ahead: 0.49, logPhones: 0.54 } as const;

/** Confidence from which words are accepted; chosen on the same speech. */
export const ACCEPT_FROM = 0.6;

/**
 * Nothing that is said at the machine has more words: the longest of the phrasebook's corpus has eleven. A long cut comes out as
 * ten to twenty.
 */
const MOST_WORDS = 12;

/** A phone of the words that falls this far short, in natural logarithms, is a sound of some other word. */
const OTHER_SOUND = 1.5;

/** The natural logarithm of the odds that the words are right. */
export function oddsOf({ short, ahead, phones }: Evidence): number {
  return (
    CONFIDENCE.bias +
    (CONFIDENCE.shortAPhone * short) / phones +
    CONFIDENCE.short * short +
    CONFIDENCE.ahead * Math.min(ahead, FAR_AHEAD) +
    CONFIDENCE.logPhones * Math.log(phones)
  );
}

/**
 * The same after the sound was heard at several shifts of the bands: `agree` is the share of the other views that came to
 * the same words. Fitted on what the first view alone left unsettled; the evidence is that of the view that was surest.
 */
export const CONFIDENCE_AGAIN = {
  bias: -2.15,
  shortAPhone: -1.65,
  short: 0.05,
  ahead: 0.42,
  logPhones: 0.49,
  agree: 0.8,
} as const;

/**
 * Where the voice stands clear of the room and all views agree, `from` by the weights above was right as often as `SURE_FROM`
 * elsewhere, so such odds are raised by so much. Lower ones are not: strange words would come through.
 */
const CLEAR_AND_AGREED = { from: Math.log(0.85 / 0.15), by: 1.25 } as const;

function oddsAgain({ short, ahead, phones }: Evidence, agree: number, clear: boolean): number {
  const odds =
    CONFIDENCE_AGAIN.bias +
    (CONFIDENCE_AGAIN.shortAPhone * short) / phones +
    CONFIDENCE_AGAIN.short * short +
    CONFIDENCE_AGAIN.ahead * Math.min(ahead, FAR_AHEAD) +
    CONFIDENCE_AGAIN.logPhones * Math.log(phones) +
    CONFIDENCE_AGAIN.agree * agree;
  return clear && agree === 1 && odds >= CLEAR_AND_AGREED.from ? odds + CLEAR_AND_AGREED.by : odds;
}

/** From these confidences on, without and with noise, and below `never`, a second look at the sound is not worth its time. */
const SETTLED = { never: 0.05, clear: SURE_FROM, noisy: 0.99 } as const;

/** A hypothesis with what it rests on, for measuring. */
export type Judged = Hypothesis & { readonly evidence: Evidence | null };

/** Whether hearing the sound at other shifts could change what is made of it. */
export const isUnsettled = ({ evidence, confidence }: Judged, clear: boolean): boolean =>
  evidence !== null && confidence >= SETTLED.never && confidence < (clear ? SETTLED.clear : SETTLED.noisy);

/**
 * What several views of one sound come to together; the first is the one that the network was trained for. `clear` says that the
 * voice stands out of the room; `bias` as for `judge`.
 */
export function judgeTogether(first: Judged, others: readonly Judged[], clear: boolean, bias = 0): Judged {
  const views = [first, ...others];
  const best = views.reduce((one, other) => (other.confidence > one.confidence ? other : one));
  if (best.evidence === null) return first;
  const agree = views.filter((view) => view !== best && view.text === best.text).length / others.length;
  return believed(best, 1 / (1 + Math.exp(-oddsAgain(best.evidence, agree, clear) - bias)));
}

/** The same words, believed so much. */
function believed(judged: Judged, confidence: number): Judged {
  const accepted = confidence >= ACCEPT_FROM;
  const reason = accepted ? null : (judged.reason ?? 'unsure');
  const alternatives = judged.alternatives.map((each) => ({
    ...each,
    confidence: (each.confidence * confidence) / judged.confidence,
  }));
  return { ...judged, confidence, accepted, reason, alternatives };
}

const refused = (reason: 'too-short' | 'too-long' | 'not-in-grammar'): Judged => ({
  words: [],
  text: '',
  confidence: 0,
  accepted: false,
  reason,
  fillerScore: 0,
  alternatives: [],
  evidence: null,
});

/**
 * The words of the graph that were likeliest said, and whether they are to be believed. `heard` is null for hardly any sound, and
 * starts `leadS` before the utterance does. `bias` is added to the odds, for the person who speaks.
 */
export function judge(graph: PhoneGraph, heard: PhoneScores | null, leadS: number, bias = 0): Judged {
  if (heard === null) return refused('too-short');
  const best = bestPath(graph, heard, SEARCH);
  if (best === null) return refused('not-in-grammar');
  if (best.words.length > MOST_WORDS) return refused('too-long');
  const second = bestPath(allBut(graph, best), heard, SECOND);
  const evidence = evidenceOf(heard, best, second);
  const confidence = 1 / (1 + Math.exp(-oddsOf(evidence) - bias));
  return {
    words: best.words.map(({ word, from, to }) => ({
      word: graph.words[word] ?? '',
      startS: from * STEP_S - leadS,
      endS: (to + 1) * STEP_S - leadS,
    })),
    text: textOf(graph, best),
    confidence,
    accepted: confidence >= ACCEPT_FROM,
    reason: confidence >= ACCEPT_FROM ? null : reasonOf(heard, evidence),
    fillerScore: evidence.short / heard.steps,
    alternatives: second === null ? [] : [{ text: textOf(graph, second), confidence: confidence * Math.exp(-evidence.ahead) }],
    evidence,
  };
}

function evidenceOf(heard: PhoneScores, best: PhonePath, second: PhonePath | null): Evidence {
  return {
    // What the moment makes likely decides between phrases, and is no sound: a knock must not pass for a likely number.
    short: freeScore(heard, SEARCH.blankCost) - best.score - Math.min(0, best.weights),
    ahead: second === null ? FAR_AHEAD : Math.min(FAR_AHEAD, best.score - second.score),
    phones: best.words.reduce((sum, word) => sum + word.phones, 0),
  };
}

function reasonOf(heard: PhoneScores, { short, phones }: Evidence): HearingRefusal {
  if (soundless(heard)) return 'not-speech';
  return short / phones > OTHER_SOUND ? 'not-in-grammar' : 'unsure';
}

/** No step of the output is likelier a phone than none. */
function soundless({ log, steps, classes }: PhoneScores): boolean {
  for (let step = 0; step < steps; step += 1) if (log[step * classes]! < Math.log(0.5)) return false;
  return true;
}

const textOf = (graph: PhoneGraph, { words }: PhonePath): string => words.map(({ word }) => graph.words[word] ?? '').join(' ');
