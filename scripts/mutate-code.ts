/**
 * Holds the phrasebook's tests against mutants of its code, made by a mutation tool's own set of mutators (conditions, operators,
 * literals, blocks, calls), and says which of them no test notices. Every mutant is run by the tests that come past it, in this
 * process: the room and its tests are evaluated anew for each, from memory. docs/phrasebook.md has the score and the survivors.
 * Run: npx tsx scripts/mutate-code.ts [FILE]… — files by their name in src/phrasebook, all where none is named.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Script } from 'node:vm';
import { Instrumenter } from '@stryker-mutator/instrumenter';
import { root, Sources } from './mutation/sources.ts';
import { gathering, type Test } from './mutation/tests.ts';

const print = (line: string): void => void process.stdout.write(`${line}\n`);

const ROOM = 'src/phrasebook/';
const TESTS = 'tests/phrasebook/';
/**
 * The terminal's own program is a process's whole life, and the laws take minutes for each mutant; what these alone would notice
 * counts as not noticed.
 */
const LEFT_OUT = ['manual.test.ts', 'law.test.ts'];

/** How often a mutant may be come past, as a multiple of how often it is without being active: more is a loop without end. */
const HITS_ALLOWED = 20;
/** How long a test may take with a mutant, in milliseconds, wherever it loops. */
const PATIENCE_MS = 20_000;

/** What the instrumented code reads and writes; its names are the tool's. */
type Switch = {
  activeMutant: string | undefined;
  currentTestId: string | undefined;
  mutantCoverage: { static: Record<string, number>; perTest: Record<string, Record<string, number>> } | undefined;
  hitCount: number | undefined;
  hitLimit: number | undefined;
};
const control: Switch = {
  activeMutant: undefined,
  currentTestId: undefined,
  mutantCoverage: undefined,
  hitCount: undefined,
  hitLimit: undefined,
};
(globalThis as unknown as { __stryker__: Switch }).__stryker__ = control;

const names = (folder: string): string[] =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.ts'));
const only = process.argv.slice(2);
const wanted = (name: string): boolean => only.length === 0 || only.includes(name);

const silent = (): void => undefined;
const logger = {
  isTraceEnabled: () => false,
  isDebugEnabled: () => false,
  isInfoEnabled: () => false,
  isWarnEnabled: () => false,
  isErrorEnabled: () => false,
  isFatalEnabled: () => false,
  trace: silent,
  debug: silent,
  info: silent,
  warn: silent,
  error: silent,
  fatal: silent,
};

/** What a broken promise of the code's own says is for its author; no test need read it. */
type Called = { readonly node: { readonly type: string; readonly callee?: { readonly name?: string } } };
const messages = {
  shouldIgnore: ({ node }: Called) =>
    (node.type === 'CallExpression' && node.callee?.name === 'assert') ||
    (node.type === 'NewExpression' && node.callee?.name === 'Error')
      ? 'a message to the author'
      : undefined,
};

const files = names(ROOM).map((name) => ({
  name: ROOM + name,
  mutate: wanted(name),
  content: readFileSync(join(root, ROOM, name), 'utf8'),
}));
const made = await new Instrumenter(logger).instrument(files, {
  plugins: null,
  ignorers: [messages] as never,
  excludedMutations: [],
});
const sourceOf = new Map(files.map(({ name, content }) => [name, content]));
const mutants = made.mutants.filter((mutant) => mutant.status !== 'Ignored');

const found: Test[] = [];
const sources = new Sources(new Map(made.files.map(({ name, content }) => [name, content])), gathering(found));
const testFiles = names(TESTS).filter((name) => name.endsWith('.test.ts') && !LEFT_OUT.includes(name));

const limited = new Script('globalThis.limitedWork()');

/** Does work that is ended, as if it threw, when it takes too long. */
function inTime<T>(work: () => T): T {
  (globalThis as unknown as { limitedWork: () => T }).limitedWork = work;
  return limited.runInThisContext({ timeout: PATIENCE_MS }) as T;
}

/** The tests of the room as it is with the mutant that is switched on; those files alone that have one of `needed`. */
function load(needed: ReadonlySet<string> | null): Map<string, Test> {
  const tests = new Map<string, Test>();
  for (const file of testFiles) {
    if (needed !== null && ![...needed].some((id) => id.startsWith(file))) continue;
    found.length = 0;
    sources.evaluate(TESTS + file);
    found.forEach((test, at) => tests.set(`${file} ${at} ${test.name}`, test));
  }
  return tests;
}

// Once without a mutant: which test comes past which mutant, and how long each takes.
const took = new Map<string, number>();
const whole = load(null);
for (const [id, test] of whole) {
  control.currentTestId = id;
  const from = performance.now();
  await test.run();
  took.set(id, performance.now() - from);
}
control.currentTestId = undefined;
const coverage = control.mutantCoverage ?? { static: {}, perTest: {} };
const quickFirst = (ids: readonly string[]): string[] => [...ids].sort((a, b) => (took.get(a) ?? 0) - (took.get(b) ?? 0));
const everyTest = quickFirst([...whole.keys()]);
const total = [...took.values()].reduce((sum, ms) => sum + ms, 0);
print(`${mutants.length} mutants, ${whole.size} tests, ${(total / 1000).toFixed(1)} s without a mutant`);

/** Tests that noticed something lately: tried first, for what breaks one row of a table is often seen where another was. */
const lately: string[] = [];

async function noticedBy(mutant: string): Promise<string | null> {
  const hits =
    (coverage.static[mutant] ?? 0) + Object.values(coverage.perTest).reduce((sum, test) => sum + (test[mutant] ?? 0), 0);
  if (hits === 0) return null;
  const isStatic = (coverage.static[mutant] ?? 0) > 0;
  const past = isStatic
    ? everyTest
    : quickFirst(Object.keys(coverage.perTest).filter((id) => coverage.perTest[id]?.[mutant] !== undefined));
  const first = lately.filter((id) => past.includes(id));
  const order = [...new Set([...first, ...past])];
  control.activeMutant = mutant;
  control.hitCount = 0;
  control.hitLimit = hits * HITS_ALLOWED;
  try {
    let tests: Map<string, Test>;
    try {
      tests = inTime(() => load(isStatic ? null : new Set(order)));
    } catch {
      return 'it does not load';
    }
    for (const id of order) {
      const test = tests.get(id);
      // A table that has lost a row has lost the row's test.
      if (test === undefined) return id;
      try {
        await inTime(() => test.run());
      } catch {
        const at = lately.indexOf(id);
        if (at >= 0) lately.splice(at, 1);
        lately.unshift(id);
        lately.length = Math.min(lately.length, 40);
        return id;
      }
    }
    return null;
  } finally {
    control.activeMutant = undefined;
    control.hitCount = undefined;
    control.hitLimit = undefined;
  }
}

const mutantsOf = new Map<string, (typeof mutants)[number][]>();
for (const mutant of mutants) mutantsOf.set(mutant.fileName, [...(mutantsOf.get(mutant.fileName) ?? []), mutant]);
const all = { made: 0, noticed: 0 };
for (const [path, here] of mutantsOf) {
  const file = path.slice(ROOM.length);
  let noticed = 0;
  for (const mutant of here) {
    if ((await noticedBy(mutant.id)) !== null) {
      noticed += 1;
      continue;
    }
    const { start, end } = mutant.location;
    const lines = (sourceOf.get(path) ?? '').split('\n').slice(start.line, end.line + 1);
    const was =
      lines.length === 1 ? (lines[0] ?? '').slice(start.column, end.column) : `${(lines[0] ?? '').slice(start.column)} …`;
    print(
      `  not noticed: ${file}:${start.line + 1} ${mutant.mutatorName}: ${was} → ${mutant.replacement.replaceAll(/\s+/g, ' ')}`,
    );
  }
  print(`${file}: ${noticed} of ${here.length}`);
  all.made += here.length;
  all.noticed += noticed;
}
print(`all: ${all.noticed} of ${all.made} noticed (${((100 * all.noticed) / Math.max(1, all.made)).toFixed(1)} %)`);
