import type { Draft, DraftProblem } from '../../part/index.ts';
import { words } from '../words.ts';
import { fieldId, fieldName, rowName } from './names.ts';
import { layoutWords as w } from './layoutWords.ts';
import type { Said } from './said.ts';

/** How many are named; the rest are counted. */
const MOST = 6;

/** What a problem is about, in words. */
function placeOf({ group, row, field }: DraftProblem, draft: Draft): string {
  if (group === 'about') return field === null ? w.problems.partAsAWhole : fieldName(field, '');
  if (group === 'instruments')
    return w.problems.at(
      Object.entries(words.instruments).find(([kind]) => kind === row)?.[1] ?? '',
      field === null ? '' : fieldName(field, ''),
    );
  const at = draft[group].findIndex((each) => each.id === row);
  const found = draft[group][at];
  if (found === undefined) return w.groups[group];
  return w.problems.at(rowName(found, at), field === null ? '' : fieldName(field, found.kind));
}

/** What is still wanted of the part, and what keeps a route from being made; each leads to its field. */
export function Wanted({
  draft,
  said,
  onGo,
}: {
  readonly draft: Draft;
  readonly said: Said;
  readonly onGo: (problem: DraftProblem, id: string | null) => void;
}) {
  if (said.length === 0) return <p className="wanted-none">✓ {w.problems.none}</p>;
  return (
    <section className="wanted" aria-label={w.problems.title}>
      <h2>{w.problems.count(said.length)}</h2>
      <ul>
        {said.slice(0, MOST).map((problem, index) => {
          const { row, field, says, group } = problem;
          const id = field === null ? null : fieldId(group === 'about' ? 'about' : (row ?? ''), field);
          return (
            <li key={`${group} ${row} ${field} ${index}`}>
              <button type="button" className="wanted-go" onClick={() => onGo(problem, id)}>
                <b>{placeOf(problem, draft)}</b> <span>{says}</span>
              </button>
            </li>
          );
        })}
      </ul>
      {said.length > MOST && <p>{w.problems.more(said.length - MOST)}</p>}
    </section>
  );
}
