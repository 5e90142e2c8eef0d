import { replyText } from '../replyText.ts';
import { useAssistant } from '../store.tsx';
import { words } from '../words.ts';

const SIGNS = { done: '✓', asked: '?', refused: '✕', 'not-understood': '✕' } as const;

/** Signs of an answer that two lines hold at the larger size. */
const LONG = 84;

/** What was heard, typed or pressed last, and the answer. The answer is also given to screen readers. */
export function Conversation() {
  const heard = useAssistant((assistant) => assistant.heard);
  const reply = useAssistant((assistant) => assistant.reply);
  // The outcome is that of the answer: a button may have been pressed since something was heard.
  const outcome =
    reply?.outcome === 'refused' && heard?.outcome === 'not-understood' ? 'not-understood' : (reply?.outcome ?? null);
  const answer = reply === null ? '' : replyText(reply.reply);
  return (
    <section className="conversation">
      <p className="heard">
        {outcome !== null && (
          <span className={`outcome is-${outcome}`}>
            <span aria-hidden="true">{SIGNS[outcome]}</span> {words.outcome[outcome]}
          </span>
        )}
        {outcome !== null && heard !== null && heard.words !== '' && ' · '}
        {heard !== null && heard.words !== '' && (
          <>
            {words.heardBy[heard.from]} “<b>{heard.words}</b>”
          </>
        )}
        {outcome === null && heard === null && words.quiet}
      </p>
      <p className={answer.length > LONG ? 'reply is-long' : 'reply'} role="status" aria-live="polite">
        {answer}
      </p>
    </section>
  );
}
