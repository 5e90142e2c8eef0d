import { useAssistant, useAssistantStore } from '../store.tsx';
import { words } from '../words.ts';
import { BigButton } from './BigButton.tsx';

/** The oldest thing that does not work, in one line, with what can be done about it. One at a time. */
export function NoticeCard() {
  const store = useAssistantStore();
  const notice = useAssistant((assistant) => assistant.notices[0] ?? null);
  if (notice === null) return null;
  const { remedy } = notice;
  return (
    <section className="notice" role="alert">
      <p>
        <b>{words.notice.parts[notice.part]}:</b> {notice.text}
      </p>
      <div className="notice-buttons">
        {remedy !== null && <BigButton label={remedy.label} onPress={remedy.run} />}
        <BigButton label={words.notice.putAway} onPress={() => store.getState().dismiss(notice.id)} />
      </div>
    </section>
  );
}
