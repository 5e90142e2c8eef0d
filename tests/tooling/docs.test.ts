import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { root } from '../../scripts/setup/root.mjs';

const read = (path: string): string => readFileSync(join(root, path), 'utf8');

type Package = {
  readonly license?: string;
  readonly scripts: Readonly<Record<string, string>>;
  readonly dependencies: Readonly<Record<string, string>>;
  readonly devDependencies: Readonly<Record<string, string>>;
};
const own = JSON.parse(read('package.json')) as Package;

const DOCS = ['README.md', 'DEVELOPERS.md', ...readdirSync(join(root, 'docs')).filter((name) => name.endsWith('.md')).map((name) => `docs/${name}`)];

describe.each(DOCS)('%s', (path) => {
  const text = read(path);

  test('links lead somewhere', () => {
    const links = [...text.matchAll(/\]\((?!https?:|#)([^)#]+)/g)].map((match) => match[1] ?? '');
    expect(links.filter((link) => !existsSync(join(root, dirname(path), link)))).toEqual([]);
  });

  test('every npm script that it names exists', () => {
    const named = [...text.matchAll(/npm (?:run )?(start|test|(?<=run )[a-z]+)\b/g)].map((match) => match[1] ?? '');
    expect(named.filter((name) => !(name in own.scripts))).toEqual([]);
  });
});

describe('docs/dependencies.md', () => {
  const lines = read('docs/dependencies.md').split('\n').filter((line) => line.startsWith('- `'));
  const listed = new Map(lines.map((line) => [/^- `([^`]+)`/.exec(line)?.[1] ?? line, line]));
  const packages = Object.entries({ ...own.dependencies, ...own.devDependencies });

  test('lists each dependency once, and nothing else', () => {
    expect([...listed.keys()].sort()).toEqual(packages.map(([name]) => name).sort());
    expect(lines).toHaveLength(packages.length);
  });

  test.each(packages)('%s has its version exact and the licence that the package states', (name, version) => {
    expect(version).toMatch(/^\d+\.\d+\.\d+(-[\w.]+)?$/);
    const { license } = JSON.parse(read(`node_modules/${name}/package.json`)) as Package;
    expect(listed.get(name)).toContain(`(${license ?? 'none'})`);
  });

  test.each(Object.keys(own.dependencies))('%s, which ships, does not forbid or burden an MIT project', (name) => {
    const { license } = JSON.parse(read(`node_modules/${name}/package.json`)) as Package;
    expect(['MIT', 'ISC', 'BSD-2-Clause', 'BSD-3-Clause', 'Apache-2.0', '0BSD']).toContain(license);
  });
});
