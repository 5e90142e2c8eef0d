import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { editDraft, readDraft, type Draft, type DraftEdit, type DraftReading } from '../../part/index.ts';
import { useAssistant, useAssistantStore } from '../store.tsx';

/** How many changes can be taken back. */
const REMEMBERED = 200;

type History = {
  readonly past: readonly Draft[];
  readonly now: Draft;
  readonly future: readonly Draft[];
  readonly field: string | null;
};

/** The field that an edit types in; two edits of one field in a row are taken back together. */
const fieldOf = (edit: DraftEdit): string | null =>
  edit.edit === 'type'
    ? `${edit.row} ${edit.field}`
    : edit.edit === 'type-about'
      ? `about ${edit.field}`
      : edit.edit === 'type-instrument'
        ? `${edit.kind} ${edit.figure}`
        : null;

const undone = (history: History): History => {
  const before = history.past.at(-1);
  return before === undefined
    ? history
    : { past: history.past.slice(0, -1), now: before, future: [history.now, ...history.future], field: null };
};

const redone = (history: History): History => {
  const [next, ...future] = history.future;
  return next === undefined ? history : { past: [...history.past, history.now], now: next, future, field: null };
};

const changed = (history: History, edit: DraftEdit): History => {
  const now = editDraft(history.now, edit);
  const field = fieldOf(edit);
  const goesOn = field !== null && field === history.field;
  const past = goesOn ? history.past : [...history.past, history.now].slice(-REMEMBERED);
  return { past, now, future: [], field };
};

export type OpenDraft = {
  readonly draft: Draft;
  readonly reading: DraftReading;
  /** The drafts that undo goes back to, the nearest last. */
  readonly past: readonly Draft[];
  readonly edit: (edit: DraftEdit) => void;
  readonly undo: (() => void) | null;
  readonly redo: (() => void) | null;
};

/** The draft on the desk with its undo. Every change is given to the assistant at once, which stores it. */
export function useDraft(first: Draft): OpenDraft {
  const store = useAssistantStore();
  const [history, setHistory] = useState<History>({ past: [], now: first, future: [], field: null });
  const shown = useRef(history);
  const take = useCallback(
    (next: History): void => {
      if (next === shown.current) return;
      shown.current = next;
      setHistory(next);
      store.getState().keepDraft(next.now);
    },
    [store],
  );
  const edit = useCallback((change: DraftEdit): void => take(changed(shown.current, change)), [take]);
  const undo = useCallback((): void => take(undone(shown.current)), [take]);
  const redo = useCallback((): void => take(redone(shown.current)), [take]);
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const key = event.key.toLowerCase();
      const again = key === 'y' || (key === 'z' && event.shiftKey);
      if (key !== 'z' && !again) return;
      // The browser's own undo knows one field only.
      event.preventDefault();
      if (again) redo();
      else undo();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, [undo, redo]);
  const draft = history.now;
  const reading = useMemo(() => readDraft(draft), [draft]);
  return {
    draft,
    reading,
    past: history.past,
    edit,
    undo: history.past.length === 0 ? null : undo,
    redo: history.future.length === 0 ? null : redo,
  };
}

/** Whether the last change is on the disk. */
export const useDraftKept = (): boolean => useAssistant((assistant) => assistant.draftKept);
