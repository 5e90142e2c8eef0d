import type * as table from './table.ts';

type Table = typeof table;

let here: Table | null = null;

/** The table once it has come; asked for by the first that needs it. */
export const loadTable = async (): Promise<Table> => (here ??= await import('./table.ts'));

/**
 * Does something with the table: at once where it is there, so that keys keep the order they are pressed in; else as soon as it
 * has come, so that the first key of a visit is not lost.
 */
export function withTable(use: (table: Table) => void): void {
  if (here !== null) use(here);
  else void loadTable().then(use);
}
