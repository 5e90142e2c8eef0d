import type { Length } from '../../measure/index.ts';

/** What came off between two readings, and what had been dialled for it, both on the part; null where nothing was said. */
export type HistoryRow = { readonly id: string; readonly off: Length; readonly dialled: Length | null };

/** A row as lengths of the picture: 1 is the longest bar. What grew has no bar. */
export type HistoryBar = { readonly id: string; readonly off: number; readonly dialled: number | null };

/** Bars of all rows on one scale, so that the longest of what came off and what was dialled fills the room. */
export function historyLayout(rows: readonly HistoryRow[]): readonly HistoryBar[] {
  const longest = Math.max(1, ...rows.map(({ off, dialled }) => Math.max(off, dialled ?? 0)));
  const share = (length: number): number => Math.max(0, length) / longest;
  return rows.map(({ id, off, dialled }) => ({ id, off: share(off), dialled: dialled === null ? null : share(dialled) }));
}
