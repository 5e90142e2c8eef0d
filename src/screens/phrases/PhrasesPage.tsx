import { PageHead } from '../PageHead.tsx';
import { useAssistantStore } from '../store.tsx';
import { words } from '../words.ts';

const w = words.phrases;

/** What can be said, from the command table, printable for the wall. */
export function PhrasesPage() {
  const store = useAssistantStore();
  return (
    <main className="desk">
      <PageHead title={w.title}>
        <button type="button" className="plain-button" onClick={() => store.getState().goTo('machine')}>
          {w.back}
        </button>
        <button type="button" className="plain-button" onClick={() => window.print()}>
          {w.print}
        </button>
      </PageHead>
      <article className="sheet">
        <h1>{w.title}</h1>
        <section>
          <h2>{w.keys}</h2>
          <dl className="key-table">
            {w.keyTable.map(([key, does]) => (
              <div key={key}>
                <dt>{key}</dt>
                <dd>{does}</dd>
              </div>
            ))}
          </dl>
        </section>
      </article>
    </main>
  );
}
