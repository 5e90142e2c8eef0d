import type { DisplayUnit } from '../../measure/index.ts';
import type { Route } from '../../route/index.ts';
import { changeLines } from './changeLines.ts';
import { layoutWords } from './layoutWords.ts';

const w = layoutWords.changes;
const MOST = 8;

/** What a mate that was measured again moved in the route. */
export function Changes({ before, after, unit }: { readonly before: Route; readonly after: Route; readonly unit: DisplayUnit }) {
  const changes = changeLines(before, after, unit);
  return (
    <section className="changes" aria-label={w.title} aria-live="polite">
      <h2>{w.title}</h2>
      {changes.length === 0 ? (
        <p>{w.none}</p>
      ) : (
        <ul>
          {changes.slice(0, MOST).map((said) => (
            <li key={said}>{said}</li>
          ))}
        </ul>
      )}
      {changes.length > MOST && <p>{w.more(changes.length - MOST)}</p>}
    </section>
  );
}
