import { replyText } from '../replyText.ts';
import { useAssistant } from '../store.tsx';
import { words } from '../words.ts';

const SIGNS = { done: '✓', asked: '?', refused: '✕', 'not-understood': '✕' } as const;

/** What was heard, typed or pressed last, and the answer. The answer is also given to screen readers. */
export function Conversation() {
  const heard = useAssistant((assistant) => assistant.heard);
  const reply = useAssistant((assistant) => assistant.reply);
  return (
    <section className="conversation">
      <p className="heard">
        {heard === null ? (
          words.quiet
        ) : (
          <>
            <span className={`outcome is-${heard.outcome}`}>
              <span aria-hidden="true">{SIGNS[heard.outcome]}</span> {words.outcome[heard.outcome]}
            </span>
            {heard.words !== '' && (
              <>
                {' · '}
                {words.heardBy[heard.from]} “<b>{heard.words}</b>”
              </>
            )}
          </>
        )}
      </p>
      <p className="reply" role="status" aria-live="polite">
        {reply === null ? '' : replyText(reply.reply)}
      </p>
    </section>
  );
}
