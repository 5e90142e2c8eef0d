import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ensureBuild } from './setup/build.mjs';
import { ensureChromium } from './setup/chromium.mjs';
import { executeNode } from './setup/execute.mjs';
import { ensurePackages } from './setup/packages.mjs';
import { say } from './setup/root.mjs';
import { scanPackages } from './setup/scan.mjs';

/*
 * The whole check of the project, from a fresh clone. Details go to standard error as they come; standard output gets one
 * line at the end, `N passed, N failed`, which adds up every stage, and the exit code says the same.
 */

/** @typedef {{ readonly passed: number, readonly failed: number, readonly skipped: number }} Count */

/**
 * What is used of vitest's report.
 * @typedef {{
 *   numPassedTests: number, numFailedTests: number, numPendingTests: number, numTodoTests: number,
 *   testResults: { status: string, assertionResults: unknown[] }[],
 * }} VitestReport
 */

/** @type {Count} */
const PASSED = { passed: 1, failed: 0, skipped: 0 };
/** @type {Count} */
const FAILED = { passed: 0, failed: 1, skipped: 0 };

/**
 * Runs one step and says how it went: a step that throws has failed, and its message is its report.
 * @param {string} name
 * @param {() => Promise<Count>} step
 * @returns {Promise<Count>}
 */
async function stage(name, step) {
  const begun = performance.now();
  /** @type {Count} */
  let count;
  try {
    count = await step();
  } catch (error) {
    say(error instanceof Error ? error.message : String(error));
    count = FAILED;
  }
  const seconds = ((performance.now() - begun) / 1000).toFixed(1);
  say(`${count.failed === 0 ? 'ok    ' : 'FAILED'} ${name}: ${count.passed} passed, ${count.failed} failed (${seconds} s)`);
  return count;
}

/**
 * A check that is one command and has nothing to say unless it fails.
 * @param {string} file
 * @param {readonly string[]} args
 * @returns {() => Promise<Count>}
 */
const command = (file, args) => async () => {
  const { code, output } = await executeNode(file, args, { capture: true });
  if (code === 0) return PASSED;
  say(output.trimEnd());
  return FAILED;
};

/**
 * One of vitest's projects, counted from its own report; a run that ends badly without a failed test counts as one failure.
 * @param {string} project
 * @param {NodeJS.ProcessEnv} env
 * @returns {Promise<Count>}
 */
async function vitest(project, env = {}) {
  const folder = mkdtempSync(join(tmpdir(), 'swarfside-test-'));
  const report = join(folder, 'report.json');
  try {
    const { code } = await executeNode(
      'node_modules/vitest/vitest.mjs',
      ['run', '--config', 'config/vitest.config.ts', '--project', project, '--reporter=dot', '--reporter=json', `--outputFile=${report}`],
      { env },
    );
    /** @type {VitestReport} */
    const tests = JSON.parse(readFileSync(report, 'utf8'));
    // A file that cannot even be loaded, or an error outside of any test, is a failure with no test to count.
    const unloaded = tests.testResults.filter((file) => file.status === 'failed' && file.assertionResults.length === 0).length;
    const failed = Math.max(tests.numFailedTests + unloaded, code === 0 ? 0 : 1);
    return { passed: tests.numPassedTests, failed, skipped: tests.numPendingTests + tests.numTodoTests };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/**
 * @param {Count} a
 * @param {Count} b
 * @returns {Count}
 */
const sum = (a, b) => ({ passed: a.passed + b.passed, failed: a.failed + b.failed, skipped: a.skipped + b.skipped });

const types = (/** @type {string} */ project) => command('node_modules/typescript/bin/tsc', ['-p', `config/tsconfig.${project}.json`]);

/** Every stage, the longest of the reading ones first; what a stage needs beforehand it does itself. */
const STAGES = /** @type {const} */ ([
  ['lint', 'lint', command('node_modules/eslint/bin/eslint.js', ['--config', 'config/eslint.config.js', '.'])],
  ['types', 'types of the core', types('core')],
  ['types', 'types of the page', types('web')],
  ['types', 'types of the terminal, tests and scripts', types('node')],
  ['rooms', 'rooms', command('node_modules/dependency-cruiser/bin/dependency-cruise.mjs', ['--config', 'config/rooms.cjs', 'src'])],
  ['scan', 'licences and known faults of the packages', packageScan],
  ['unit', 'unit and property tests', () => vitest('rooms')],
  ['browser', 'browser tests', browserTests],
]);

/** @type {ReadonlySet<string>} */
const TESTING = new Set(['unit', 'browser']);

/** Licences of all packages, and their known faults where the registry answers: a grave one fails. */
async function packageScan() {
  const { failures, remarks } = await scanPackages();
  for (const line of [...failures, ...remarks]) say(line);
  return failures.length === 0 ? PASSED : FAILED;
}

async function browserTests() {
  await ensureBuild();
  const chromium = await ensureChromium();
  if (chromium === null) throw new Error('No Chromium: set SWARFSIDE_CHROMIUM to the browser program.');
  return await vitest('browser-stories', { SWARFSIDE_CHROMIUM: chromium });
}

/**
 * @param {readonly string[]} wanted keys of stages; none means all
 * @returns {Promise<Count>}
 */
async function run(wanted) {
  const unknown = wanted.filter((key) => !STAGES.some(([known]) => known === key));
  if (unknown.length > 0) {
    say(`No such stage: ${unknown.join(', ')}. There are: ${[...new Set(STAGES.map(([key]) => key))].join(', ')}.`);
    return FAILED;
  }
  let total = await stage('packages', async () => {
    await ensurePackages();
    return PASSED;
  });
  if (total.failed > 0) return total;
  const due = STAGES.filter(([key]) => wanted.length === 0 || wanted.includes(key));
  // The checks that only read run two at a time, one to a core; tests have the machine to themselves, as they measure time.
  const reading = due.filter(([key]) => !TESTING.has(key));
  const next = async () => {
    for (let check = reading.shift(); check !== undefined; check = reading.shift()) {
      // Awaited before it is added: the other lane changes the total meanwhile.
      const count = await stage(check[1], check[2]);
      total = sum(total, count);
    }
  };
  await Promise.all([next(), next()]);
  for (const [key, name, step] of due) if (TESTING.has(key)) total = sum(total, await stage(name, step));
  return total;
}

const total = await run(process.argv.slice(2));
const skipped = total.skipped === 0 ? '' : `, ${total.skipped} skipped`;
process.stdout.write(`${total.passed} passed, ${total.failed} failed${skipped}\n`);
process.exitCode = total.failed === 0 ? 0 : 1;
