import type { Plan } from '../../job/index.ts';
import type { DraftReading } from '../../part/index.ts';
import type { DraftRoute } from './useRoute.ts';

/** What the desk has laid out, as the plan of a job; null while there is no route. Steps that were left out are not in it. */
export function planOf({ part, machines, instruments }: DraftReading, { edited }: DraftRoute): Plan | null {
  if (part === null || machines === null || edited === null) return null;
  const operations = edited.route.operations.filter(({ id }) => !edited.skipped.includes(id));
  const setups = edited.route.setups.filter(({ id }) => operations.some(({ setup }) => setup === id));
  return {
    id: part.id,
    title: part.name,
    invented: false,
    part,
    machines: [...machines],
    ...(instruments.length === 0 ? {} : { instruments: [...instruments] }),
    route: { ...edited.route, setups, operations },
  };
}
