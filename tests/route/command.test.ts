import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { planSchema } from '../../src/job/index.ts';
import { partFileSchema } from '../../src/part/index.ts';
import { demoPlan } from './demos.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'swarfside-route-'));
afterAll(() => rmSync(folder, { recursive: true }));

type Run = { readonly code: number; readonly out: string; readonly err: string };

const run = (...args: string[]): Promise<Run> =>
  new Promise((resolve) => {
    execFile(
      process.execPath,
      [join(root, 'node_modules/tsx/dist/cli.mjs'), join(root, 'src/cli/route.ts'), ...args],
      (error, out, err) => {
        resolve({ code: error === null ? 0 : Number(error.code), out, err });
      },
    );
  });

const file = (name: string, text: string): string => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};

const { part, machines } = demoPlan('inch');
const sound = z.encode(partFileSchema, { format: 'swarfside-part', version: 1, invented: true, part, machines });

describe('npm run route', { timeout: 120_000 }, () => {
  test('prints a sheet, the route as JSON, and a job file that opens', async () => {
    const path = file('axle.json', JSON.stringify(sound));
    const [sheet, json, job] = await Promise.all([
      run(path),
      run(path, '--json'),
      run('demo:metric', '--job', '--tool', 'carbide'),
    ]);
    expect([sheet.code, json.code, job.code]).toEqual([0, 0, 0]);
    expect(sheet.out).toContain('Dial in the tracking cam: .250 on the indicator');
    expect(JSON.parse(json.out)).toMatchObject({ warnings: [], route: { id: 'idler-axle-route' } });
    const written = JSON.parse(job.out) as { readonly format: string; readonly plan: unknown };
    expect(written.format).toBe('swarfside-job');
    expect(planSchema.parse(written.plan).part.id).toBe('bead-roller-spindle');
  });

  test.concurrent.each([
    ['nothing named', [], /Name a part/],
    ['no such file', ['nowhere.json'], /nowhere\.json: there is no such file/],
    ['damaged JSON', [file('damaged.json', '{"format": ')], /damaged\.json: is not JSON/],
    ['another format', [file('other.json', '{"format":"swarfside-job","version":1}')], /other\.json: format/],
    ['a newer version', [file('newer.json', JSON.stringify({ ...sound, version: 2 }))], /newer version \(2\)/],
    [
      'a part with a bad size',
      [file('bad.json', JSON.stringify(sound).replace('"1.25in"', '"1.25"').replace('"1.248in"', '"1.248"'))],
      /feature "Collar"/,
    ],
    [
      'a part that cannot be made',
      [file('thin.json', JSON.stringify(sound).replace('"size":"1.5in"', '"size":"1in"'))],
      /cannot be made as given: .*Collar/,
    ],
    ['an unknown tool', ['demo:inch', '--tool', 'flint'], /--tool flint/],
    ['two forms at once', ['demo:inch', '--json', '--job'], /do not go together/],
  ] as const)('%s ends with one line and exit code 2', async (_, args, says) => {
    const { code, out, err } = await run(...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err.trimEnd().split('\n')).toHaveLength(1);
    expect(err).toMatch(says);
  });
});
