import type { AssistantDeps } from './assistantDeps.ts';
import type { AssistantState } from './assistantState.ts';
import type { JobFileEdges } from './jobFiles.ts';

type FileActions = Pick<AssistantState, 'startDemo' | 'importJob' | 'exportJob'>;

/** The actions on job files, whose code is fetched with the first of them. */
export function lateJobFiles(deps: AssistantDeps, edges: JobFileEdges): FileActions {
  let fetching: Promise<FileActions> | null = null;
  const fetched = (): Promise<FileActions> =>
    (fetching ??= import('./jobFiles.ts').then(({ jobFiles }) => jobFiles(deps, edges)));
  return {
    startDemo: async (demo) => (await fetched()).startDemo(demo),
    importJob: async (fileName, text) => (await fetched()).importJob(fileName, text),
    exportJob: async () => (await fetched()).exportJob(),
  };
}
