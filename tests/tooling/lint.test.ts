import { fileURLToPath } from 'node:url';
import { ESLint } from 'eslint';
import tseslint from 'typescript-eslint';
import { describe, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** The project's own rules on planted text; those that need types are left out, as such text belongs to no program. */
const eslint = new ESLint({
  cwd: root,
  overrideConfigFile: `${root}config/eslint.config.js`,
  overrideConfig: [{ ...tseslint.configs.disableTypeChecked, languageOptions: { parserOptions: { project: null } } }],
});

async function broken(text: string, filePath: string): Promise<readonly (string | null)[]> {
  const [result] = await eslint.lintText(text, { filePath: `${root}${filePath}` });
  return (result?.messages ?? []).map(({ ruleId }) => ruleId);
}

const CORE = ['measure', 'trade', 'part', 'route', 'job', 'phrasebook'];

/** Text that a rule must refuse; in the core the clock, chance and ids come in as arguments. */
const HIDDEN_INPUTS: readonly (readonly [text: string, rule: string])[] = [
  ['export const planted = Date.now();\n', 'no-restricted-properties'],
  ['export const planted = new Date();\n', 'no-restricted-syntax'],
  ['export const planted = Date();\n', 'no-restricted-syntax'],
  ['export const planted = Math.random();\n', 'no-restricted-properties'],
  ['export const planted = crypto.randomUUID();\n', 'no-restricted-properties'],
  ['export const planted = performance.now();\n', 'no-restricted-properties'],
];

describe('lint', () => {
  test.each(CORE.flatMap((room) => HIDDEN_INPUTS.map(([text, rule]) => [room, text.trim(), rule] as const)))(
    'in %s, `%s` breaks %s',
    async (room, text, rule) => {
      expect(await broken(`${text}\n`, `src/${room}/planted.ts`)).toEqual([rule]);
    },
  );

  test.each(['ear', 'voice', 'shelf', 'screens', 'app', 'cli'])('%s may look at the clock', async (room) => {
    expect(await broken('export const planted = Date.now();\n', `src/${room}/planted.ts`)).toEqual([]);
  });

  test('a date from a number that was passed in is no hidden clock', async () => {
    expect(await broken('export const planted = (at: number): Date => new Date(at);\n', 'src/job/planted.ts')).toEqual([]);
  });

  test.each([
    ['a default export', 'export default 1;\n', 'no-restricted-syntax'],
    ['an export of everything', "export * from './planted.ts';\n", 'no-restricted-syntax'],
    ['a file of 401 lines', `export const planted = [\n${'  1,\n'.repeat(399)}];\n`, 'max-lines'],
    ['a line of more than 130 columns', `export const planted = [${'1, '.repeat(35)}1];\n`, 'max-len'],
    ['a loose comparison', 'export const planted = (a: number): boolean => a == 1;\n', 'eqeqeq'],
    ['a line to the console', "console.log('planted');\n", 'no-console'],
  ])('%s in src breaks a rule', async (_name, text, rule) => {
    for (const room of ['measure', 'screens']) expect(await broken(text, `src/${room}/planted.ts`)).toEqual([rule]);
  });
});
