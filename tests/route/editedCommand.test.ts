import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { InputFault } from '../../src/cli/fault.ts';
import { routeText } from '../../src/cli/routeText.ts';

const folder = mkdtempSync(join(tmpdir(), 'swarfside-edits-'));
afterAll(() => rmSync(folder, { recursive: true }));

const file = (name: string, json: unknown): string => {
  const path = join(folder, name);
  writeFileSync(path, typeof json === 'string' ? json : JSON.stringify(json));
  return path;
};

async function faultOf(...args: string[]): Promise<string> {
  try {
    await routeText(args);
  } catch (error) {
    if (error instanceof InputFault) return error.message;
    throw error;
  }
  throw new Error('it was taken');
}

const edits = [
  { edit: 'split', operation: 'rough-arm-journal', at: '1.15in', second: 'rough-again' },
  { edit: 'skip', operation: 'edges-broken-first-end' },
  { edit: 'change', operation: 'file-arm-journal', numbers: { aim: '0.9987in' } },
  { edit: 'note', operation: 'part-off', note: 'Slowly, with the new blade.' },
];

describe('npm run route with edits and measured mates', () => {
  test('prints the edited route and what the edits changed', async () => {
    const sheet = await routeText(['demo:inch', '--edits', file('edits.json', edits)]);
    expect(sheet).toContain('Rough the arm journal to 1.150');
    expect(sheet).toContain('Break the edges of the first end (skipped)');
    expect(sheet).toContain('note      Slowly, with the new blade.');
    expect(sheet).toContain('\nWhat changed:\n');
    expect(sheet).toContain('- Rough the arm journal to 1.033: added');
    expect(sheet).toContain('- File the arm journal to .9987: size to aim at .9985 in, now .9987 in');
  });

  test('a mate measured smaller moves the hand-set size with it, and nothing else', async () => {
    const sheet = await routeText(['demo:inch', '--edits', file('edits.json', edits), '--measured', 'arm-bore=.9994']);
    const [, changes = ''] = sheet.split('\nWhat changed:\n');
    expect(changes).toContain('- File the arm journal to .9981: size to aim at .9987 in, now .9981 in');
    expect(changes).not.toMatch(/cam|collar|pocket|keeper|to length/);
    expect(sheet).toContain('note      Slowly, with the new blade.');
  });

  test('as one object: route, edits with the size of their mate, changes, what no longer applies', async () => {
    const path = file('edits.json', edits);
    const out = JSON.parse(await routeText(['demo:inch', '--edits', path, '--measured', 'arm-bore=0.9994in', '--json'])) as {
      readonly edits: readonly { readonly mateSize?: string }[];
      readonly skipped: readonly string[];
      readonly leftOver: readonly unknown[];
    };
    expect(out).toMatchObject({ skipped: ['edges-broken-first-end'], leftOver: [] });
    expect(out.edits[2]?.mateSize).toBe('1in');
    // What it wrote is taken again, with the sizes of the mates that the edits were made at.
    const again = JSON.parse(await routeText(['demo:inch', '--edits', file('again.json', out.edits), '--json'])) as typeof out;
    expect(again.edits).toEqual(out.edits);
  });

  test('as it is spoken', async () => {
    const said = await routeText(['demo:inch', '--edits', file('edits.json', edits), '--spoken']);
    expect(said).toContain('Rough the arm journal. Target one one fifty');
    expect(said).not.toContain('Break the edges of the first end');
  });

  test.each<[string, string[], RegExp]>([
    ['an edit that makes no sense', ['--edits', file('bad.json', [{ edit: 'skip', operation: 'x' }])], /^edit 1: The route has no operation/],
    ['an edit of no kind', ['--edits', file('odd.json', [{ edit: 'burn' }])], /^odd\.json: \[0\]\.?edit/],
    ['edits that are no JSON', ['--edits', file('no.json', '[')], /^no\.json: is not JSON/],
    ['no such file', ['--edits', 'nowhere.json'], /no such file/],
    ['a mate that is not there', ['--measured', 'hub=1in'], /no mate called "hub"; it has arm-bore/],
    ['a size that is none', ['--measured', 'arm-bore=big'], /"big" is not a size/],
    ['a size below zero', ['--measured', 'arm-bore=-1in'], /is not a size/],
    ['no size at all', ['--measured', 'arm-bore'], /is not a size/],
    ['two ways of printing', ['--json', '--spoken'], /--json and --spoken do not go together/],
  ])('%s is one line', async (_, args, says) => {
    const fault = await faultOf('demo:inch', ...args);
    expect(fault).toMatch(says);
    expect(fault).not.toContain('\n');
  });
});
