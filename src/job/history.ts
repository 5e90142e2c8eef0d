/**
 * A list that only grows, newest on top, shared by every state that has seen its beginning: adding is one cell, whatever the
 * length, so a job of many readings folds in linear time.
 */
export type History<T> = { readonly size: number; readonly top: T; readonly below: History<T> } | null;

export const added = <T>(history: History<T>, item: T): History<T> => ({ size: sizeOf(history) + 1, top: item, below: history });
export const sizeOf = <T>(history: History<T>): number => history?.size ?? 0;
export const newest = <T>(history: History<T>): T | null => history?.top ?? null;

/** Newest first. */
export function* downward<T>(history: History<T>): Generator<T> {
  for (let at = history; at !== null; at = at.below) yield at.top;
}

/** Oldest first. */
export function inOrder<T>(history: History<T>): T[] {
  return [...downward(history)].reverse();
}
