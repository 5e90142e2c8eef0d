import { contextOf } from '../../job/index.ts';
import { card, type CardGroup, type CardLine } from '../../phrasebook/index.ts';
import { Boundary } from '../Boundary.tsx';
import { PageHead } from '../PageHead.tsx';
import { useAssistant, useAssistantStore } from '../store.tsx';
import { words } from '../words.ts';
import { phrasesWords } from './phrasesWords.ts';

const w = phrasesWords;

/** The key of a command by its name, or the two that are pressed one after the other. */
const keysOf = (key: string): readonly string[] => (key in w.keyNames ? [w.keyNames[key] ?? key] : key.split(' '));

function Line({ line }: { readonly line: CardLine }) {
  const [first, ...others] = line.say;
  return (
    <li>
      <span className="say">
        “{first}”{others.length > 0 && <span className="also">{others.map((other) => `“${other}”`).join(', ')}</span>}
      </span>
      <span className="does">
        {line.help}{' '}
        <span className="keys">
          {keysOf(line.key).map((key) => (
            <kbd key={key}>{key}</kbd>
          ))}
        </span>
      </span>
    </li>
  );
}

function Group({ group }: { readonly group: CardGroup }) {
  if (group.lines.length === 0) return null;
  return (
    <section className={`phrase-group is-${group.id}`}>
      <h2>{group.title}</h2>
      <ul className="phrase-lines">
        {group.lines.map((line) => (
          <Line key={line.name} line={line} />
        ))}
      </ul>
    </section>
  );
}

/** What can be said, from the command table: what is likely at the open step first, then everything. Printable for the wall. */
function Card() {
  const job = useAssistant((assistant) => assistant.job);
  const groups = card(job === null ? null : contextOf(job.state, job.talk, Date.now()));
  return (
    <article className="sheet">
      <h1 className="is-in-head">{w.title}</h1>
      {groups.map((group) => (
        <Group key={group.id} group={group} />
      ))}
    </article>
  );
}

export function PhrasesPage() {
  const store = useAssistantStore();
  const hasJob = useAssistant((assistant) => assistant.job !== null);
  return (
    <main className="desk">
      <PageHead title={w.title}>
        {hasJob && (
          <button type="button" className="plain-button" onClick={() => store.getState().goTo('machine')}>
            {w.back}
          </button>
        )}
        <button type="button" className="plain-button" onClick={() => window.print()}>
          {w.print}
        </button>
      </PageHead>
      <Boundary part={words.parts.page}>
        <Card />
      </Boundary>
    </main>
  );
}
