import { useDeferredValue, useMemo } from 'react';
import { z } from 'zod';
import { instrumentsOf } from '../../measure/index.ts';
import type { Draft, DraftReading } from '../../part/index.ts';
import {
  checkRoute,
  reapply,
  routeEditSchema,
  routeFor,
  type EditedRoute,
  type LeftOver,
  type Route,
  type RouteEdit,
  type RouteFault,
  type Warning,
} from '../../route/index.ts';

/** The route of a draft as far as there is one. `made` is as it was generated, `edited` with the changes by hand. */
export type DraftRoute = {
  readonly made: Route | null;
  readonly edited: EditedRoute | null;
  readonly leftOver: readonly LeftOver[];
  readonly faults: readonly RouteFault[];
  readonly warnings: readonly Warning[];
};

const NONE: DraftRoute = { made: null, edited: null, leftOver: [], faults: [], warnings: [] };

/** The changes by hand that a draft holds; what this version does not know is passed over here and stays in the draft. */
export const editsIn = (draft: Draft): readonly RouteEdit[] =>
  draft.edits.flatMap((edit) => {
    const read = routeEditSchema.safeParse(edit);
    return read.success ? [read.data] : [];
  });

export const storedEdits = (edits: readonly RouteEdit[]): Draft['edits'] =>
  z.array(routeEditSchema).encode([...edits]) as Draft['edits'];

export function routeOf(draft: Draft, { part, machines, instruments }: DraftReading): DraftRoute {
  if (part === null || machines === null) return NONE;
  const made = routeFor(part, machines, draft.tool, instrumentsOf(instruments));
  if (!made.ok) return { ...NONE, faults: made.error };
  const { edited, leftOver } = reapply(made.value, editsIn(draft));
  return { made: made.value, edited, leftOver, faults: [], warnings: checkRoute(part, machines, edited.route) };
}

/** The route of the draft as it is being typed; a key press never waits for it. */
export function useRoute(draft: Draft, reading: DraftReading): DraftRoute {
  const settled = useDeferredValue(useMemo(() => ({ draft, reading }), [draft, reading]));
  return useMemo(() => routeOf(settled.draft, settled.reading), [settled]);
}
