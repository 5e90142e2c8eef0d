import type { Operation, Route } from '../../src/route/index.ts';

export const ids = (route: Route): string[] => route.operations.map(({ id }) => id);

/** The operation of an id, which must be there. */
export function step(route: Route, id: string): Operation {
  const found = route.operations.find((operation) => operation.id === id);
  if (found === undefined) throw new Error(`no operation ${id} in ${ids(route).join(' ')}`);
  return found;
}
