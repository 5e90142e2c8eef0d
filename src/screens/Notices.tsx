import { useAssistant, useAssistantStore } from './store.tsx';
import { words } from './words.ts';

/** Everything that does not work, a line each, with what can be done about it: at the desk there is room for all. */
export function Notices() {
  const store = useAssistantStore();
  const notices = useAssistant((assistant) => assistant.notices);
  if (notices.length === 0) return null;
  return (
    <div className="notices" role="alert">
      <ul>
        {notices.map(({ id, part, text, remedy }) => (
          <li key={id}>
            <span>
              <b>{words.notice.parts[part]}:</b> {text}
            </span>
            {remedy !== null && (
              <button type="button" className="plain-button" onClick={remedy.run}>
                {remedy.label}
              </button>
            )}
            <button type="button" className="plain-button" onClick={() => store.getState().dismiss(id)}>
              {words.notice.putAway}
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}
