import { saveFile } from '../saveFile.ts';
import { useAssistant, useAssistantStore } from '../store.tsx';
import { words } from '../words.ts';
import { BigButton } from './BigButton.tsx';

/** The oldest thing that does not work, in one line, with what can be done about it. One at a time. */
export function NoticeCard() {
  const store = useAssistantStore();
  const notice = useAssistant((assistant) => assistant.notices[0] ?? null);
  const refused = useAssistant((assistant) => assistant.unstored > 0);
  if (notice === null) return null;
  const { remedy } = notice;
  const save = async (): Promise<void> => {
    const file = await store.getState().exportJob();
    if (file !== null) saveFile(file.fileName, file.text);
  };
  return (
    <section className="notice" role="alert">
      <p>
        <b>{words.notice.parts[notice.part]}:</b> {notice.text}
      </p>
      <div className="notice-buttons">
        {remedy !== null && <BigButton label={remedy.label} onPress={remedy.run} />}
        {remedy === null && notice.part === 'shelf' && refused && (
          <BigButton label={words.notice.save} onPress={() => void save()} />
        )}
        <BigButton label={words.notice.putAway} onPress={() => store.getState().dismiss(notice.id)} />
      </div>
    </section>
  );
}
