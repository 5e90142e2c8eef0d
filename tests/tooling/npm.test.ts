import { describe, expect, test } from 'vitest';
import { execute } from '../../scripts/setup/execute.mjs';

/** npm as a person calls it, with both streams together. */
const npm = (...args: string[]): ReturnType<typeof execute> => execute('npm', args, { capture: true });

describe('npm run', () => {
  test('adds nothing to the JSON of a terminal command', { timeout: 90_000 }, async () => {
    const { code, output } = await npm('run', 'rehearse', '--', 'demo:inch', '--say', 'next', '--json');
    const lines = output.trimEnd().split('\n').map((line) => JSON.parse(line) as Record<string, unknown>);
    expect(lines).toHaveLength(2);
    expect(lines[0]?.['heard']).toBe('next');
    expect(lines[1]).toHaveProperty('state');
    expect(code).toBe(0);
  });

  test('adds nothing to the line that refuses bad input, and keeps its code', { timeout: 90_000 }, async () => {
    const { code, output } = await npm('run', 'rehearse', '--', 'demo:nothing', '--json');
    expect(output.trimEnd().split('\n')).toHaveLength(1);
    expect(output).toContain('demo:nothing');
    expect(code).toBe(2);
  });
});
