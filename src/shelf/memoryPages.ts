import { EVENTS_A_PART, PagesError, type OpenPages, type PageKey, type PageName, type PageRows, type Pages } from './pages.ts';

type Held = { readonly [N in PageName]: Map<string, PageRows[N]> };

const KEYS: { readonly [N in PageName]: (row: PageRows[N]) => PageKey } = {
  jobs: (row) => row.id,
  heads: (row) => row.job,
  events: (row) => [row.job, row.seq],
  clips: (row) => [row.job, row.clip],
  settings: (row) => row.name,
  setAside: (row) => [row.job, row.no],
};
const written = (key: PageKey): string => JSON.stringify(key);

function byKey(x: PageKey, y: PageKey): number {
  if (typeof x === 'string' || typeof y === 'string') return x < y ? -1 : x > y ? 1 : 0;
  if (x[0] !== y[0]) return x[0] < y[0] ? -1 : 1;
  return x[1] < y[1] ? -1 : x[1] > y[1] ? 1 : 0;
}

/**
 * Pages in memory, for Node and for tests; gone with the process. With `room`, a write that would leave more rows than that
 * fails as a full disk does.
 */
export function memoryPages(room: number = Number.POSITIVE_INFINITY): Pages {
  const emptied = (): Held => ({
    jobs: new Map(), heads: new Map(), events: new Map(), clips: new Map(), settings: new Map(), setAside: new Map(),
  });
  let held = emptied();
  let last: Promise<unknown> = Promise.resolve();

  async function run<T>(mode: 'read' | 'write', names: readonly PageName[], work: (open: OpenPages) => Promise<T>): Promise<T> {
    // What is written lies over the rows until the work has ended well; `null` stands for a row that was removed.
    const changes = new Map<PageName, Map<string, PageRows[PageName] | null>>();
    const layer = (page: PageName): Map<string, PageRows[PageName] | null> => {
      if (!names.includes(page)) throw new Error(`Broken invariant: the transaction names the page "${page}"`);
      const found = changes.get(page) ?? new Map<string, PageRows[PageName] | null>();
      changes.set(page, found);
      return found;
    };
    const write = <N extends PageName>(page: N, row: PageRows[N]): void => {
      if (mode === 'read') throw new Error('Broken invariant: a reading transaction writes nothing');
      layer(page).set(written(KEYS[page](row)), structuredClone(row));
    };
    const rowsOf = <N extends PageName>(page: N): PageRows[N][] => {
      const merged = new Map<string, PageRows[PageName] | null>([...held[page], ...layer(page)]);
      const rows = [...merged.values()].filter((row): row is PageRows[N] => row !== null);
      return rows.sort((a, b) => byKey(KEYS[page](a), KEYS[page](b)));
    };
    const open: OpenPages = {
      get: (page, key) => {
        const changed = layer(page).get(written(key));
        const row = changed === undefined ? held[page].get(written(key)) : changed;
        return Promise.resolve(structuredClone(row ?? undefined) as never);
      },
      all: (page) => Promise.resolve(rowsOf(page).map((row) => structuredClone(row))),
      under: (page, job) =>
        Promise.resolve(rowsOf(page).filter((row) => (row as { job: string }).job === job).map((row) => structuredClone(row))),
      eachPart: (job, take) => {
        const rows = rowsOf('events').filter((row) => row.job === job);
        for (let from = 0; from < rows.length; from += EVENTS_A_PART)
          take(rows.slice(from, from + EVENTS_A_PART).map((row) => structuredClone(row)));
        return Promise.resolve();
      },
      add: async (page, row) => {
        if ((await open.get(page, KEYS[page](row))) !== undefined) throw new PagesError('denied', `the key ${written(KEYS[page](row))} is taken`);
        write(page, row);
      },
      put: (page, row) => {
        write(page, row);
        return Promise.resolve();
      },
      remove: (page, key) => {
        layer(page).set(written(key), null);
        return Promise.resolve();
      },
      addEvents: async (events) => {
        for (const event of events) await open.add('events', event);
      },
      cutAfter: async (job, seq) => {
        for (const row of rowsOf('events')) if (row.job === job && row.seq > seq) await open.remove('events', [job, row.seq]);
      },
    };
    const value = await work(open);
    let grown = 0;
    for (const [page, rows] of changes) for (const [key, row] of rows) if (row !== null && !held[page].has(key)) grown += 1;
    const size = Object.values(held).reduce((count, rows) => count + rows.size, 0);
    if (grown > 0 && size + grown > room) throw new PagesError('disk-full', `there is room for ${room} rows`);
    for (const [page, rows] of changes)
      for (const [key, row] of rows) {
        if (row === null) held[page].delete(key);
        else (held[page] as Map<string, unknown>).set(key, row);
      }
    return value;
  }

  return {
    transact(mode, names, work) {
      const next = last.then(() => run(mode, names, work));
      last = next.catch(() => undefined);
      return next;
    },
    wipe() {
      held = emptied();
      return Promise.resolve();
    },
  };
}
