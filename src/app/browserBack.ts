import { z } from 'zod';
import type { StoreApi } from 'zustand/vanilla';
import type { AssistantState, PageName } from './assistantState.ts';

const entrySchema = z.object({
  page: z.enum(['jobs', 'machine', 'record', 'phrases', 'layout', 'voice', 'keys', 'compare']) satisfies z.ZodType<PageName>,
});

/** What is taken from the browser's window: its history, and word of "Back" and "Forward" with what was noted of the entry. */
export type BackEdges = {
  readonly history: Pick<History, 'pushState' | 'replaceState'>;
  readonly onMoved: (moved: (noted: unknown) => void) => void;
};

/**
 * Makes the browser's own "Back" (a button, a swipe, a key) lead to the page that was shown before, rather than away from the
 * work. A page that has nothing to show any more, such as a draft that was thrown away, gives way to the list of jobs.
 */
export function followBack(assistant: StoreApi<AssistantState>, { history, onMoved }: BackEdges): void {
  let shown = assistant.getState().page;
  let moving = false;
  assistant.subscribe(({ page }) => {
    if (page === shown || page === 'starting') return;
    if (shown === 'starting') history.replaceState({ page }, '');
    else if (!moving) history.pushState({ page }, '');
    shown = page;
  });
  onMoved((noted) => {
    const entry = entrySchema.safeParse(noted);
    // Not one of ours, as where only the part behind # was changed by hand.
    if (!entry.success) return;
    const { page } = entry.data;
    const { job, draft } = assistant.getState();
    const empty =
      (page === 'layout' && draft === null) || (job === null && (page === 'machine' || page === 'record' || page === 'compare'));
    moving = true;
    assistant.getState().goTo(empty ? 'jobs' : page);
    moving = false;
  });
}
