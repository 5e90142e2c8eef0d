import type { AssistantDeps } from './assistantDeps.ts';
import type { DeskActions, DeskEdges } from './deskActions.ts';

/**
 * The desk's actions, whose code is fetched with the first of them: at the machine none is needed, and the page is there sooner
 * without it. Once it is there, a kept draft is shown before `keepDraft` returns, as typing into it needs.
 */
export function lateDesk(deps: AssistantDeps, edges: DeskEdges): DeskActions {
  let desk: DeskActions | null = null;
  let fetching: Promise<DeskActions> | null = null;
  const fetched = (): Promise<DeskActions> =>
    (fetching ??= import('./desk.ts').then(({ createDesk }) => {
      desk = createDesk(deps, edges);
      return desk;
    }));
  return {
    newDraft: async (unit) => (await fetched()).newDraft(unit),
    openDraft: async (id) => (await fetched()).openDraft(id),
    keepDraft: (draft) => (desk === null ? void fetched().then((late) => late.keepDraft(draft)) : desk.keepDraft(draft)),
    dropDraft: async (id) => (await fetched()).dropDraft(id),
    draftFromJob: async () => (await fetched()).draftFromJob(),
    startJob: async (plan) => (await fetched()).startJob(plan),
    memo: async (clip) => (await fetched()).memo(clip),
    pieceOf: async (id) => (await fetched()).pieceOf(id),
  };
}
