import type { StoreApi } from 'zustand/vanilla';
import type { AssistantState, Notice } from './assistantState.ts';

/** What does not work, a line each; one is shown at a time, the first of them. */
export type Notices = {
  /** Puts a notice behind the others, in place of the one with its id. */
  readonly notify: (notice: Notice) => void;
  /** Puts it before the others: for what answers a press, and for what is not stored. */
  readonly notifyAtOnce: (notice: Notice) => void;
  readonly settle: (id: string) => void;
};

/** The notices of the assistant. */
export function noticesOf(store: StoreApi<AssistantState>): Notices {
  const others = (id: string): readonly Notice[] => store.getState().notices.filter((each) => each.id !== id);
  return {
    notify: (notice) => store.setState({ notices: [...others(notice.id), notice] }),
    notifyAtOnce: (notice) => store.setState({ notices: [notice, ...others(notice.id)] }),
    settle: (id) => store.setState({ notices: others(id) }),
  };
}
