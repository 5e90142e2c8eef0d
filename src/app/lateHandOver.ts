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
  let asked = 0;
  let last: Promise<unknown> = Promise.resolve();

  const store: StoreApi<HandOver> = createStore<HandOver>()(() => ({
    standing: 'off',
    start,
    stop,
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
    asked += 1;
    const mine = asked;
    store.setState({ standing: 'connecting' });
    try {
      fetching ??= fetched();
      const { store: whole } = await fetching;
      // It may have been turned off while it was fetched.
      if (mine === asked) await whole.getState().start(code);
    } catch (error) {
      fetching = null;
      if (mine !== asked) return;
      store.setState({ standing: 'cut' });
      deps.onRefused(`Working together did not start: ${error instanceof Error ? error.message : String(error)}`);
    }
  }

  function stop(): void {
    asked += 1;
    together?.store.getState().stop();
    store.setState({ standing: 'off' });
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
