import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { execute } from './execute.mjs';
import { root } from './root.mjs';

/**
 * @typedef {{
 *   readonly version?: string, readonly license?: string, readonly dev?: boolean, readonly link?: boolean,
 * }} LockedPackage
 */
/** @typedef {{ readonly packages: Readonly<Record<string, LockedPackage>> }} Lock */
/** @typedef {{ readonly failures: readonly string[], readonly remarks: readonly string[] }} Findings */

/** Licences (SPDX) that may be handed on with an MIT project, in the page. */
const SHIPPED = new Set([
  'MIT',
  'ISC',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'Apache-2.0',
  '0BSD',
  'BlueOak-1.0.0',
  'CC0-1.0',
  'Unlicense',
]);

/** Licences that may be used to build and test, but are not handed on. */
const TOOLS = new Set([...SHIPPED, 'BSD-4-Clause', 'MPL-2.0', 'CC-BY-4.0', 'Python-2.0']);

/**
 * Whether a licence expression can be kept to: of alternatives one will do, of several that apply together all must.
 * @param {string} expression
 * @param {ReadonlySet<string>} allowed
 * @returns {boolean}
 */
export function licenceAllowed(expression, allowed) {
  const bare = expression.trim().replace(/^\((.*)\)$/, '$1');
  if (bare.includes(' OR ')) return bare.split(' OR ').some((each) => licenceAllowed(each, allowed));
  if (bare.includes(' AND ')) return bare.split(' AND ').every((each) => licenceAllowed(each, allowed));
  return allowed.has(bare);
}

/**
 * The licence that a package states: in the lock file, or in the package itself.
 * @param {string} path
 * @param {LockedPackage} locked
 */
function licenceOf(path, locked) {
  if (locked.license !== undefined) return locked.license;
  const file = join(root, path, 'package.json');
  if (!existsSync(file)) return null;
  /** @type {{ license?: unknown }} */
  const { license } = JSON.parse(readFileSync(file, 'utf8'));
  return typeof license === 'string' ? license : null;
}

/**
 * Packages whose licence does not suit this project, a line each.
 * @param {Lock} lock
 * @param {(path: string, locked: LockedPackage) => string | null} [stated]
 * @returns {readonly string[]}
 */
export function unsuitedLicences(lock, stated = licenceOf) {
  return Object.entries(lock.packages).flatMap(([path, locked]) => {
    if (path === '' || locked.link === true) return [];
    const licence = stated(path, locked);
    const use = locked.dev === true ? 'a tool' : 'part of the page';
    if (licence !== null && licenceAllowed(licence, locked.dev === true ? TOOLS : SHIPPED)) return [];
    return [
      `${path.replace(/^.*node_modules\//, '')} ${locked.version ?? ''} (${use}) has the licence ${licence ?? 'that it does not state'}`,
    ];
  });
}

/**
 * What npm's audit found, from its JSON; null where it is no finding, as when the registry does not answer that question.
 * @param {string} output
 * @returns {Findings | null}
 */
export function auditFindings(output) {
  /**
   * @type {{
   *   metadata?: { vulnerabilities?: Record<string, number> },
   *   vulnerabilities?: Record<string, { severity: string, range?: string }>,
   * }}
   */
  let report;
  try {
    report = JSON.parse(output.slice(output.indexOf('{')));
  } catch {
    return null;
  }
  if (report.metadata?.vulnerabilities === undefined || report.vulnerabilities === undefined) return null;
  const lines = Object.entries(report.vulnerabilities).map(([name, { severity, range }]) => ({
    grave: severity === 'high' || severity === 'critical',
    line: `${name} ${range ?? ''} has a known fault (${severity}): npm audit says which`,
  }));
  return {
    failures: lines.filter(({ grave }) => grave).map(({ line }) => line),
    remarks: lines.filter(({ grave }) => !grave).map(({ line }) => line),
  };
}

/** Looks through the locked packages: licences always, known faults where the registry answers. */
export async function scanPackages() {
  /** @type {Lock} */
  const lock = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8'));
  const licences = unsuitedLicences(lock);
  const args = ['audit', '--json', '--loglevel=silent', '--fetch-retries=0', '--fetch-timeout=20000'];
  const npmScript = process.env['npm_execpath'];
  const how = { capture: true, timeoutMs: 60_000 };
  const { output } = await (npmScript !== undefined && npmScript.endsWith('.js')
    ? execute(process.execPath, [npmScript, ...args], how)
    : execute('npm', args, how));
  const faults = auditFindings(output);
  const notAsked = 'known faults: not asked, the registry did not answer that question from here';
  return {
    failures: [...licences, ...(faults?.failures ?? [])],
    remarks: faults === null ? [notAsked] : faults.remarks,
  };
}
