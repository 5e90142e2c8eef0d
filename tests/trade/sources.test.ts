import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { cases } from './fixture.ts';

const FOLDER = new URL('../fixtures/trade/', import.meta.url);
const NAMES = readdirSync(FOLDER).map((name) => name.replace('.json', ''));

/** How sure a source is, by its own words. */
function kindOf(source: string): 'memory' | 'practice' | 'computed' | 'published' {
  if (source.includes('from memory') && !source.includes('was from memory')) return 'memory';
  if (source.includes('practice')) return 'practice';
  return source.startsWith('computed') || source.startsWith('±IT7/2') || source === 'half the tip' ? 'computed' : 'published';
}

const KINDS = NAMES.flatMap((name) => cases(name).map(({ source }) => ({ name, kind: kindOf(source) })));
const count = (kind: ReturnType<typeof kindOf>): number => KINDS.filter((one) => one.kind === kind).length;

test('docs/sources.md counts the check values as they stand in the data files, 200 published ones and more', () => {
  const docs = readFileSync(new URL('../../docs/sources.md', import.meta.url), 'utf8').replaceAll(/\s+/g, ' ');
  expect(count('published')).toBeGreaterThan(200);
  expect(docs).toContain(
    `Of the ${KINDS.length} check values there, ${count('published')} are published ones, seen in the source or in a secondary copy, ` +
      `${count('computed')} are computed by the formula beside them, ${count('practice')} is common practice, and ${count('memory')} are from memory`,
  );
});

test('what is from memory stands in three files, as docs/sources.md lists it', () => {
  const memory = KINDS.filter(({ kind }) => kind === 'memory').map(({ name }) => name);
  const each = new Map([...new Set(memory)].sort().map((name) => [name, memory.filter((one) => one === name).length]));
  expect([...each]).toEqual([
    ['conformance', 6],
    ['inch-fits', 5],
    ['iso-holes', 3],
  ]);
});
