import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

/** Where each label comes from: docs/labels.md, held against the files that hold the English of the screens. */
const screens = new URL('../../src/screens/', import.meta.url);
const labels = readFileSync(new URL('../../docs/labels.md', import.meta.url), 'utf8');
const files = readdirSync(screens, { recursive: true })
  .map((file) => String(file).replaceAll('\\', '/'))
  .filter((file) => /(^|\/)(words|\w+Words)\.ts$/.test(file))
  .sort();

type Origin = 'trade term' | 'standard' | 'ours';

/** The rows of the table: a file, and the names that are said to come from each origin. */
const rows = new Map(
  [...labels.matchAll(/^\| `([\w/]+)` \| (.+?) \| (.+?) \| (.+?) \|$/gm)].map(([, file = '', ...cells]) => [
    file,
    (['trade term', 'standard', 'ours'] as const).flatMap((origin, at) =>
      [...(cells[at] ?? '').matchAll(/`([^`]+)`/g)].map(([, name = '']): readonly [string, Origin] => [name, origin]),
    ),
  ]),
);

/** The names of all texts in a file, each with what it lies under. */
function namesIn(value: unknown, name = ''): readonly string[] {
  if (typeof value === 'string' || typeof value === 'function') return [name];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, under]) => namesIn(under, name === '' ? key : `${name}.${key}`));
}

const covers = (name: string, text: string): boolean => text === name || text.startsWith(`${name}.`);

test('every file of texts has its row, and no row is of a file that is gone', () => {
  expect([...rows.keys()].sort()).toEqual(files.map((file) => file.replace(/\.ts$/, '')));
  expect(files.length).toBeGreaterThan(8);
});

describe.each(files)('%s', (file) => {
  const claimed = rows.get(file.replace(/\.ts$/, '')) ?? [];
  const texts = async (): Promise<readonly string[]> => {
    const module = (await import(new URL(file, screens).href)) as Record<string, unknown>;
    return Object.values(module).flatMap((words) => (typeof words === 'object' ? namesIn(words) : []));
  };

  test('every text is a trade term, from a standard, or ours', async () => {
    expect((await texts()).filter((text) => !claimed.some(([name]) => covers(name, text)))).toEqual([]);
  });

  test('every name in the table is of a text, and has one origin', async () => {
    const every = await texts();
    expect(claimed.filter(([name]) => !every.some((text) => covers(name, text)))).toEqual([]);
    expect(claimed.length).toBe(new Set(claimed.map(([name]) => name)).size);
  });
});
