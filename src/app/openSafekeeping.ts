import { askToPersist, canChooseFolder, chooseFolder, folderKept, folderOf } from '../shelf/index.ts';
import type { StoreApi } from 'zustand/vanilla';
import { createSafekeeping, type SafekeepingDeps } from './safekeeping.ts';
import type { Safekeeping } from './safekeepingState.ts';
import { surroundings } from './surroundings.ts';

type Edges = Omit<SafekeepingDeps, 'canChoose' | 'choose' | 'folderOf' | 'persist' | 'surroundings'>;

/** What keeps the record safe, with this browser's own folders and store behind it. */
export function openSafekeeping(edges: Edges): StoreApi<Safekeeping> {
  return createSafekeeping({
    ...edges,
    canChoose: canChooseFolder(),
    choose: chooseFolder,
    folderOf: (kept) => {
      const handle = folderKept(kept);
      return handle === null ? null : folderOf(handle);
    },
    persist: () => askToPersist(navigator.storage),
    surroundings,
  });
}
