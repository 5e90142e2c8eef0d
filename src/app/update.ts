import type { Workbox } from 'workbox-window';
import type { StoreApi } from 'zustand/vanilla';
import type { AssistantState } from './assistantState.ts';

type InHand = Pick<AssistantState, 'page' | 'job' | 'unstored' | 'listening'>;

/** Whether a change of version now would be in the way: with a step open at the machine, something not stored, or being said. */
export function inTheMiddle({ page, job, unstored, listening }: InHand): boolean {
  const spokenTo = listening.state === 'hearing' || listening.state === 'thinking';
  return unstored > 0 || spokenTo || (page === 'machine' && job !== null && job.state.open !== null);
}

type Waiting = Pick<Workbox, 'messageSkipWaiting'> & {
  addEventListener(event: 'waiting' | 'controlling', listener: () => void): void;
};

/**
 * Offers a new version once it has been fetched whole, and only while no operation is in hand: at the machine the offer waits,
 * and one that was made is taken back. The old version works on until the person takes the new one, and is not left in the
 * middle.
 */
export function offerUpdate(store: StoreApi<AssistantState>, worker: Waiting, reload: () => void): void {
  let ready = false;
  /** Another window took the new version: this one reloads as soon as it is in nobody's way. */
  let changed = false;
  const take = {
    label: 'Change to it now',
    run: () => {
      if (!inTheMiddle(store.getState())) worker.messageSkipWaiting();
    },
  };
  const notice = {
    id: 'update',
    part: 'update',
    text: 'A new version is ready; this one works on until you change.',
    remedy: take,
  } as const;
  function show(): void {
    if (!ready) return;
    const state = store.getState();
    const offered = state.notices.some((each) => each.id === notice.id);
    const due = !inTheMiddle(state);
    if (due === offered) return;
    const others = state.notices.filter((each) => each.id !== notice.id);
    store.setState({ notices: due ? [...others, notice] : others });
  }
  /** The offer was put away by the person: it comes back with the next start. */
  const shows = (state: AssistantState): boolean => state.notices.some((each) => each.id === notice.id);
  const putAway = (state: AssistantState, before: AssistantState): boolean =>
    shows(before) && !shows(state) && !inTheMiddle(state);

  function reloadWhenFree(): void {
    if (changed && !inTheMiddle(store.getState())) reload();
  }

  worker.addEventListener('waiting', () => {
    ready = true;
    show();
    // Only now: the very first worker takes a page over as well, and that is no change of version.
    worker.addEventListener('controlling', () => {
      changed = true;
      reloadWhenFree();
    });
  });
  store.subscribe((state, before) => {
    if (changed) {
      reloadWhenFree();
      return;
    }
    if (putAway(state, before)) ready = false;
    show();
  });
}
