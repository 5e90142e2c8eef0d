import { z } from 'zod';
import type { AssistantDeps } from './assistantDeps.ts';
import type { DraftSummary } from './assistantState.ts';

/** The name of the setting that lists the drafts. */
export const DRAFTS = 'drafts';

const summariesSchema = z.array(z.strictObject({ id: z.string(), name: z.string(), changedAt: z.number() }));

/** The list of drafts as it is stored, newest change first; empty where there is none that reads. */
export async function draftsOn(shelf: AssistantDeps['shelf']): Promise<readonly DraftSummary[]> {
  const stored = await shelf.setting(DRAFTS);
  const read = summariesSchema.safeParse(stored.ok ? stored.value : null);
  return read.success ? read.data : [];
}
