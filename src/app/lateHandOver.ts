import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Shelf } from '../shelf/index.ts';
import type { HandOver, HandOverDeps } from './handOver.ts';

type Together = { readonly shelf: Shelf; readonly store: StoreApi<HandOver> };

/**
 * The hand-over, whose code is fetched when somebody first types a code; until then the shelf works as it is.
 * Invariant: no append to the bare shelf is under way once the hand-over has taken the shelf.
 */
export function lateHandOver(deps: HandOverDeps): Together {
  const { shelf } = deps;
  const opened = new Set<string>();
  let together: Together | null = null;
  let fetching: Promise<Together> | null = null;
  let last: Promise<unknown> = Promise.resolve();

  const store: StoreApi<HandOver> = createStore<HandOver>()(() => ({
    standing: 'off',
    start,
    stop: () => together?.store.getState().stop(),
  }));

  async function fetched(): Promise<Together> {
    const { createHandOver } = await import('./handOver.ts');
    const made = createHandOver(deps);
    made.store.subscribe(({ standing }) => store.setState({ standing }));
    together = made;
    await last;
    // It shares the jobs that it has seen opened.
    for (const job of opened) await made.shelf.open(job);
    return made;
  }

  async function start(code: string): Promise<void> {
    store.setState({ standing: 'connecting' });
    try {
      fetching ??= fetched();
      await (await fetching).store.getState().start(code);
    } catch (error) {
      fetching = null;
      store.setState({ standing: 'cut' });
      deps.onRefused(`Working together did not start: ${error instanceof Error ? error.message : String(error)}`);
    }
  }

  return {
    store,
    shelf: {
      ...shelf,
      append: (job, event) => {
        const stored = (together?.shelf ?? shelf).append(job, event);
        last = Promise.allSettled([last, stored]);
        return stored;
      },
      async open(id) {
        const read = await (together?.shelf ?? shelf).open(id);
        if (read.ok) opened.add(id);
        return read;
      },
      async wipe() {
        opened.clear();
        return await (together?.shelf ?? shelf).wipe();
      },
    },
  };
}
