/** Something that went wrong in the page itself, for the diagnostic file. `where` is the first lines of its stack. */
export type NotedFault = { readonly at: number; readonly part: string; readonly text: string; readonly where: readonly string[] };

/** The last faults of this session, oldest first: what nobody caught, and what a part of the page caught for itself. */
export type FaultLog = {
  note(part: string, fault: unknown): void;
  readonly faults: () => readonly NotedFault[];
};

const MOST_FAULTS = 50;
const MOST_LINES = 6;
const MOST_LETTERS = 300;

export function createFaultLog(now: () => number): FaultLog {
  const faults: NotedFault[] = [];
  return {
    note(part, fault) {
      const error = fault instanceof Error ? fault : null;
      const text = (error === null ? String(fault) : `${error.name}: ${error.message}`).slice(0, MOST_LETTERS);
      const where = (error?.stack ?? '')
        .split('\n')
        .slice(1, 1 + MOST_LINES)
        .map((line) => line.trim().slice(0, MOST_LETTERS));
      faults.push({ at: now(), part, text, where });
      if (faults.length > MOST_FAULTS) faults.shift();
    },
    faults: () => [...faults],
  };
}
