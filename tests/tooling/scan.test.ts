import { describe, expect, test } from 'vitest';
import { auditFindings, licenceAllowed, scanPackages, unsuitedLicences } from '../../scripts/setup/scan.mjs';

describe('licences of packages', () => {
  const allowed = new Set(['MIT', 'ISC']);
  test.each([
    ['MIT', true],
    ['GPL-3.0-only', false],
    ['(MIT OR GPL-3.0-only)', true],
    ['(GPL-3.0-only OR AGPL-3.0)', false],
    ['MIT AND ISC', true],
    ['MIT AND GPL-3.0-only', false],
    ['SEE LICENSE IN FILE', false],
  ])('%s will do: %s', (expression, expected) => expect(licenceAllowed(expression, allowed)).toBe(expected));

  test('names what is unsuited, in the page more strictly than among the tools', () => {
    const lock = {
      packages: {
        '': {},
        'node_modules/good': { version: '1.0.0', license: 'MIT' },
        'node_modules/tool': { version: '2.0.0', license: 'MPL-2.0', dev: true },
        'node_modules/shipped': { version: '3.0.0', license: 'MPL-2.0' },
        'node_modules/a/node_modules/copyleft': { version: '4.0.0', license: 'GPL-3.0-only', dev: true },
        'node_modules/silent': { version: '5.0.0' },
      },
    };
    expect(unsuitedLicences(lock, (_path, { license }) => license ?? null)).toEqual([
      'shipped 3.0.0 (part of the page) has the licence MPL-2.0',
      'copyleft 4.0.0 (a tool) has the licence GPL-3.0-only',
      'silent 5.0.0 (part of the page) has the licence that it does not state',
    ]);
  });
});

describe("what npm's audit says", () => {
  const report = (severity: string): string =>
    JSON.stringify({ vulnerabilities: { planted: { severity, range: '<2' } }, metadata: { vulnerabilities: { [severity]: 1 } } });
  test.each([
    ['high', 1, 0],
    ['critical', 1, 0],
    ['moderate', 0, 1],
    ['low', 0, 1],
  ])('a fault that is %s gives %i failure and %i remark', (severity, failures, remarks) => {
    const found = auditFindings(report(severity));
    expect([found?.failures.length, found?.remarks.length]).toEqual([failures, remarks]);
    expect([...(found?.failures ?? []), ...(found?.remarks ?? [])][0]).toBe(
      `planted <2 has a known fault (${severity}): npm audit says which`,
    );
  });
  test.each([['{"message":"405 Method Not Allowed","error":{"summary":""}}'], ['npm error network'], ['']])(
    '%j is no answer',
    (output) => expect(auditFindings(output)).toBeNull(),
  );
});

test('the packages of this project have licences that suit it', { timeout: 90_000 }, async () => {
  const { failures, remarks } = await scanPackages();
  expect(failures).toEqual([]);
  expect(remarks.every((line) => /known fault/.test(line))).toBe(true);
});
