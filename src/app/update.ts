import type { Workbox } from 'workbox-window';
import type { StoreApi } from 'zustand/vanilla';
import type { AssistantState } from './assistantState.ts';

/**
 * Offers a new version once it has been fetched whole. The old one works on until the person takes it: nothing changes in the
 * middle of an operation.
 */
export function offerUpdate(store: StoreApi<AssistantState>, worker: Workbox): void {
  worker.addEventListener('waiting', () => {
    worker.addEventListener('controlling', () => location.reload());
    const take = { label: 'Change to it now', run: () => worker.messageSkipWaiting() };
    const notice = {
      id: 'update',
      part: 'update',
      text: 'A new version is ready; this one works on until you change.',
      remedy: take,
    } as const;
    store.setState((state) => ({ notices: [...state.notices.filter((each) => each.id !== notice.id), notice] }));
  });
}
