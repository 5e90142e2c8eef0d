import { SURE_FROM } from '../../../src/ear/index.ts';
import type { Context, Intent } from '../../../src/job/index.ts';
import { interpret } from '../../../src/phrasebook/index.ts';

/** What words come to at a moment: the intent with all that it holds, or nothing. */
function meaning(words: string, context: Context): Intent | null {
  const read = interpret(words, context);
  return read.ok ? read.value : null;
}

/** Without what only repeats the words. */
const essence = (intent: Intent): string =>
  JSON.stringify(intent, (key, value: unknown) => (key === 'spoken' ? undefined : value));

/**
 * What an utterance came to: `right` in intent and value; `refused`, so the person says it again; `asked`, a question, or a
 * number that is refused for a reason; `wrong`, another command or a value that is not what was said; and, among the wrong,
 * whether a number would be stored without a word (`silent`), before the job's own doubts. A number of which the ear is not sure
 * enough is said back first: the right one is then `right` and `checked`, a wrong one `asked`.
 */
export type Verdict = {
  readonly as: 'right' | 'refused' | 'asked' | 'wrong';
  readonly silent: boolean;
  readonly checked: boolean;
};

export function verdictOn(said: string, heard: string | null, context: Context, confidence: number): Verdict {
  const wanted = meaning(said, context);
  const got = heard === null ? null : meaning(heard, context);
  if (got === null) return { as: 'refused', silent: false, checked: false };
  const number = 'value' in got ? got.value : 'step' in got ? got.step : null;
  const checked = number !== null && number.as === 'one' && confidence < SURE_FROM;
  if (wanted !== null && essence(wanted) === essence(got)) return { as: 'right', silent: false, checked };
  if (checked || (number !== null && number.as !== 'one')) return { as: 'asked', silent: false, checked };
  return { as: 'wrong', silent: number !== null, checked };
}
