import { createContext, useContext, useMemo } from 'react';
import { useStore } from 'zustand';
import type { StoreApi } from 'zustand/vanilla';
import { assert } from '../measure/index.ts';
import { glance, type Glance } from '../job/index.ts';
import type { AssistantState } from '../app/index.ts';

/** The store that every part of the screens reads; `Screens` provides it. */
export const AssistantContext = createContext<StoreApi<AssistantState> | null>(null);

/** Whether no page was shown before the one that is. */
export const FirstPageContext = createContext(true);

/**
 * Whether this is the first page that is shown. It leaves the focus alone: it is read from its head as any page of the web is,
 * and to give a focus means to lay everything out at once.
 */
export const useIsFirstPage = (): boolean => useContext(FirstPageContext);

/** The store itself, for calling its actions; throws outside `Screens`. */
export function useAssistantStore(): StoreApi<AssistantState> {
  const store = useContext(AssistantContext);
  assert(store !== null, 'a screen is shown outside Screens, which provides the store');
  return store;
}

/** One part of the assistant's state; `select` must return something that the state holds, not something new. */
export const useAssistant = <T,>(select: (state: AssistantState) => T): T => useStore(useAssistantStore(), select);

/** What one look at the open job needs, or null when no job is open or all its steps are done. */
export function useGlance(): Glance | null {
  const state = useAssistant((assistant) => assistant.job?.state ?? null);
  return useMemo(() => (state === null ? null : glance(state)), [state]);
}
