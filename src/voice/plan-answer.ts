import type { Spoken } from '../phrasebook/index.ts';
import type { ClipBook } from './clip-book.ts';
import { clipKey, clipWords, sentencesOf } from './clip-words.ts';

/** A pause by its place in the answer; `assemble` gives each its length. */
export type PausePlace = 'word' | 'sentence' | 'question';

/** What is played, in order. `device` text goes to the device's own voice; `unspoken` text is left to the screen. */
export type AnswerStep =
  | { readonly step: 'clip'; readonly key: string }
  | { readonly step: 'pause'; readonly place: PausePlace }
  | { readonly step: 'device'; readonly text: string }
  | { readonly step: 'unspoken'; readonly text: string };

type Book = Pick<ClipBook, 'has' | 'longest'>;

/**
 * The fewest clips that say exactly these words, the longer clip first where several ways are as few; null where a word has
 * no clip.
 */
export function fewestClips(words: readonly string[], clips: Book): readonly string[] | null {
  // best[i]: the clips for the words from i on; worked out from the end, so each is settled when it is needed.
  const best: (readonly string[] | null)[] = Array.from({ length: words.length + 1 }, () => null);
  best[words.length] = [];
  for (let from = words.length - 1; from >= 0; from--) {
    for (let to = Math.min(words.length, from + clips.longest); to > from; to--) {
      const key = clipKey(words.slice(from, to));
      const rest = best[to];
      if (rest === null || rest === undefined || !clips.has(key)) continue;
      const known = best[from];
      if (known === null || known === undefined || rest.length + 1 < known.length) best[from] = [key, ...rest];
    }
  }
  return best[0] ?? null;
}

const withWordPauses = (keys: readonly string[]): readonly AnswerStep[] =>
  keys.flatMap((key, at): AnswerStep[] =>
    at === 0 ? [{ step: 'clip', key }] : [{ step: 'pause', place: 'word' }, { step: 'clip', key }],
  );

/** Free text: the clip of each whole sentence, else its words; if any sentence has neither, the whole line goes elsewhere. */
function lineSteps(text: string, clips: Book, deviceVoice: boolean): readonly AnswerStep[] {
  const steps: AnswerStep[] = [];
  const sentences = sentencesOf(text);
  for (const [at, sentence] of sentences.entries()) {
    const keys = fewestClips(sentence.words, clips);
    if (keys === null) return [deviceVoice ? { step: 'device', text } : { step: 'unspoken', text }];
    steps.push(...withWordPauses(keys));
    if (at < sentences.length - 1) steps.push({ step: 'pause', place: sentence.asks ? 'question' : 'sentence' });
  }
  return steps;
}

function stepsOf(spoken: Spoken, clips: Book, deviceVoice: boolean): readonly AnswerStep[] {
  switch (spoken.say) {
    case 'words': {
      const words = spoken.words.flatMap(clipWords);
      const keys = fewestClips(words, clips);
      if (keys !== null) return withWordPauses(keys);
      return [deviceVoice ? { step: 'device', text: clipKey(words) } : { step: 'unspoken', text: clipKey(words) }];
    }
    case 'line':
      return lineSteps(spoken.text, clips, deviceVoice);
    case 'pause':
      return [{ step: 'pause', place: spoken.after }];
  }
}

/** Whether a pause at this place is longer than at the other: of two pauses in a row the longer stands alone. */
const RANK: Readonly<Record<PausePlace, number>> = { word: 0, question: 1, sentence: 2 };

/**
 * An answer as steps: runs of words that follow one another are joined with a word's pause and searched as one run, so that a
 * clip may reach across them; pauses stand between sounds only, never first, last or doubled.
 */
export function planAnswer(answer: readonly Spoken[], clips: Book, deviceVoice: boolean): readonly AnswerStep[] {
  const steps: AnswerStep[] = [];
  let pause: PausePlace | null = null;
  let sounded = false;
  for (const spoken of joinRuns(answer, clips)) {
    for (const step of stepsOf(spoken, clips, deviceVoice)) {
      if (step.step === 'pause') {
        if (pause === null || RANK[step.place] > RANK[pause]) pause = step.place;
        continue;
      }
      if (step.step === 'unspoken') {
        steps.push(step);
        continue;
      }
      if (sounded) steps.push({ step: 'pause', place: pause ?? 'word' });
      pause = null;
      sounded = true;
      steps.push(step);
    }
  }
  return steps;
}

/** Neighbouring runs of words as one where each can be said, so that a word without a clip silences its own run only. */
function joinRuns(answer: readonly Spoken[], clips: Book): readonly Spoken[] {
  const joined: Spoken[] = [];
  for (const spoken of answer) {
    const last = joined.at(-1);
    if (spoken.say === 'words' && last?.say === 'words' && sayable(last.words, clips) && sayable(spoken.words, clips))
      joined[joined.length - 1] = { say: 'words', words: [...last.words, ...spoken.words] };
    else joined.push(spoken);
  }
  return joined;
}

const sayable = (words: readonly string[], clips: Book): boolean => fewestClips(words.flatMap(clipWords), clips) !== null;
