import { describe, expect, test } from 'vitest';
import { execute } from '../../scripts/setup/execute.mjs';

const node = (script: string, timeoutMs?: number): ReturnType<typeof execute> =>
  execute(process.execPath, ['-e', script], { capture: true, ...(timeoutMs === undefined ? {} : { timeoutMs }) });

describe('running a command', () => {
  test('keeps what it says on both streams, and its code', async () => {
    expect(await node("process.stdout.write('out'); process.exitCode = 3")).toEqual({ code: 3, output: 'out' });
    expect(await node("process.stderr.write('err')")).toEqual({ code: 0, output: 'err' });
  });

  test('gives it nothing to read', async () => {
    expect(await node("process.stdout.write(require('fs').readFileSync(0))")).toEqual({ code: 0, output: '' });
  });

  test('one that cannot be started ends with 127', async () => {
    const { code, output } = await execute('/nonexistent/program', [], { capture: true, timeoutMs: 60_000 });
    expect(code).toBe(127);
    expect(output).toContain('ENOENT');
  });

  test('one that takes too long is ended', async () => {
    const begun = performance.now();
    expect((await node('setTimeout(() => undefined, 60000)', 300)).code).not.toBe(0);
    expect(performance.now() - begun).toBeLessThan(15_000);
  });
});
