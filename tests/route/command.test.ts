import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { planSchema } from '../../src/job/index.ts';
import { InputFault } from '../../src/cli/fault.ts';
import { routeText } from '../../src/cli/routeText.ts';
import { PART_VERSION, partFileSchema } from '../../src/part/index.ts';
import { demoPlan } from './demos.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'swarfside-route-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** What the command prints, or its one line of complaint. */
async function run(...args: string[]): Promise<{ readonly out: string; readonly fault: string | null }> {
  try {
    return { out: await routeText(args), fault: null };
  } catch (error) {
    if (!(error instanceof InputFault)) throw error;
    return { out: '', fault: error.message };
  }
}

const file = (name: string, text: string): string => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};

const { part, machines } = demoPlan('inch');
const sound = z.encode(partFileSchema, { format: 'swarfside-part', version: PART_VERSION, invented: true, part, machines });

describe('npm run route', () => {
  test('prints a sheet, the route as JSON, and a job file that opens', async () => {
    const path = file('axle.json', JSON.stringify(sound));
    const [sheet, json, job] = await Promise.all([
      run(path),
      run(path, '--json'),
      run('demo:metric', '--job', '--tool', 'carbide'),
    ]);
    expect([sheet.fault, json.fault, job.fault]).toEqual([null, null, null]);
    expect(sheet.out).toContain('Dial in the tracking cam: .250 on the indicator');
    expect(JSON.parse(json.out)).toMatchObject({ warnings: [], route: { id: 'idler-axle-route' } });
    const written = JSON.parse(job.out) as { readonly format: string; readonly plan: unknown };
    expect(written.format).toBe('swarfside-job');
    expect(planSchema.parse(written.plan).part.id).toBe('bead-roller-spindle');
  });

  test.each([
    ['nothing named', [], /Name a part/],
    ['no such file', ['nowhere.json'], /nowhere\.json: there is no such file/],
    ['damaged JSON', [file('damaged.json', '{"format": ')], /damaged\.json: is not JSON/],
    ['another format', [file('other.json', '{"format":"swarfside-job","version":1}')], /other\.json: format/],
    ['a newer version', [file('newer.json', JSON.stringify({ ...sound, version: 9 }))], /newer version \(9\)/],
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
  ] as const)('%s is one line of complaint', async (_, args, says) => {
    const { out, fault } = await run(...args);
    expect(out).toBe('');
    expect(fault).not.toContain('\n');
    expect(fault).toMatch(says);
  });

  test('in the terminal the complaint goes to standard error, with exit code 2', { timeout: 60_000 }, async () => {
    const command = [join(root, 'node_modules/tsx/dist/cli.mjs'), join(root, 'src/cli/route.ts'), join(folder, 'nowhere.json')];
    const ended = await new Promise((resolve) => {
      execFile(process.execPath, command, (error, out, err) => resolve({ code: error?.code, out, err }));
    });
    expect(ended).toEqual({
      code: 2,
      out: '',
      err: `${join(folder, 'nowhere.json')}: there is no such file; check the path\n`,
    });
  });
});
