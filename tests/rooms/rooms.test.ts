import { readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { cruise, type ICruiseResult, type IForbiddenRuleType } from 'dependency-cruiser';
import { describe, expect, test } from 'vitest';

type Rooms = { readonly forbidden: readonly IForbiddenRuleType[]; readonly options: object };

const { forbidden, options } = createRequire(import.meta.url)('../../config/rooms.cjs') as Rooms;

/** Small source trees, one per rule and named for it, each holding one import that this rule alone must refuse. */
const planted = fileURLToPath(new URL('planted', import.meta.url));

/** The names of the rules that a planted tree breaks. */
async function broken(tree: string): Promise<readonly string[]> {
  const { output } = await cruise(['src'], {
    ...options,
    baseDir: `${planted}/${tree}`,
    validate: true,
    ruleSet: { forbidden: [...forbidden] },
  });
  return (output as ICruiseResult).summary.violations.map((violation) => violation.rule.name);
}

describe('import rules', () => {
  const names = forbidden.map((rule) => rule.name ?? '');

  test.each(names)('%s refuses its planted violation, and no other rule does', async (name) => {
    expect(await broken(name)).toEqual([name]);
  });

  test('what is allowed passes', async () => {
    expect(await broken('allowed')).toEqual([]);
  });

  test('every planted tree belongs to a rule', () => {
    expect(readdirSync(planted).sort()).toEqual([...names, 'allowed'].sort());
  });

  test.each(forbidden.map((rule) => [rule.name, rule.comment] as const))('%s says what a hit means', (_name, comment) => {
    expect(comment).toMatch(/^[A-Z].{20,}\.$/);
  });
});
