import { defineConfig } from 'eslint/config';
import tseslint from 'typescript-eslint';

/** The rooms that must give the same answer on every machine at every time. */
const CORE = ['measure', 'trade', 'part', 'route', 'coach', 'setups', 'job', 'phrasebook'].map((room) => `src/${room}/**/*.ts`);

const FROM_OUTSIDE = 'The clock, chance and ids come in as arguments here.';

export default defineConfig(
  { ignores: ['dist/**', 'node_modules/**', 'tests/rooms/planted/**', '.cache/**', 'coverage/**'] },
  {
    files: ['**/*.{ts,tsx,js,mjs,cjs}'],
    extends: [tseslint.configs.strictTypeChecked],
    linterOptions: { reportUnusedDisableDirectives: 'error' },
    languageOptions: {
      parserOptions: {
        project: ['config/tsconfig.core.json', 'config/tsconfig.web.json', 'config/tsconfig.node.json'],
        tsconfigRootDir: new URL('..', import.meta.url).pathname,
      },
    },
    rules: {
      'no-restricted-syntax': [
        'error',
        { selector: 'ExportAllDeclaration', message: 'Exports are listed by name, so that an index reads as the architecture.' },
      ],
      'max-lines': ['error', { max: 400 }],
      'max-len': [
        'error',
        { code: 130, ignoreUrls: true, ignoreRegExpLiterals: true, ignoreStrings: true, ignoreTemplateLiterals: true },
      ],
      eqeqeq: ['error', 'always', { null: 'ignore' }],
      'no-console': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { allowDefaultCaseForExhaustiveSwitch: false, considerDefaultExhaustiveForUnions: false },
      ],
      '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'inline-type-imports' }],
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true, allowBoolean: true }],
      '@typescript-eslint/no-confusing-void-expression': [
        'error',
        { ignoreArrowShorthand: true, ignoreVoidOperator: true, ignoreVoidReturningFunctions: true },
      ],
      '@typescript-eslint/no-meaningless-void-operator': 'off',
      // Texts here are plain words and digits; brands are numbers and may be negated.
      '@typescript-eslint/no-misused-spread': 'off',
      '@typescript-eslint/no-unsafe-unary-minus': 'off',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
    },
  },
  {
    files: ['src/**/*.{ts,tsx}'],
    rules: {
      'no-restricted-syntax': [
        'error',
        { selector: 'ExportDefaultDeclaration', message: 'Exports have one name everywhere: no default exports.' },
        { selector: 'ExportAllDeclaration', message: 'Exports are listed by name, so that an index reads as the architecture.' },
      ],
    },
  },
  {
    files: CORE,
    rules: {
      'no-restricted-properties': [
        'error',
        { object: 'Date', property: 'now', message: FROM_OUTSIDE },
        { object: 'Math', property: 'random', message: FROM_OUTSIDE },
        { object: 'crypto', property: 'randomUUID', message: FROM_OUTSIDE },
        { object: 'crypto', property: 'getRandomValues', message: FROM_OUTSIDE },
        { object: 'performance', property: 'now', message: FROM_OUTSIDE },
      ],
      'no-restricted-syntax': [
        'error',
        { selector: 'ExportDefaultDeclaration', message: 'Exports have one name everywhere: no default exports.' },
        { selector: 'ExportAllDeclaration', message: 'Exports are listed by name, so that an index reads as the architecture.' },
        { selector: "NewExpression[callee.name='Date'][arguments.length=0]", message: FROM_OUTSIDE },
        { selector: "CallExpression[callee.name='Date']", message: FROM_OUTSIDE },
      ],
    },
  },
  {
    // Loops over samples and frames index typed arrays within bounds that the loop itself sets.
    files: ['src/ear/**/*.ts', 'src/voice/**/*.ts', 'src/cli/**/*.ts', 'tests/**/*.ts', 'scripts/**/*.ts'],
    rules: { '@typescript-eslint/no-non-null-assertion': 'off' },
  },
  {
    // A test looks into whatever came out, JSON above all, and fails where it is not what it says.
    files: ['tests/**/*.{ts,tsx}'],
    rules: {
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-call': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
    },
  },
  {
    // Stories in the browser tell the times that they measured.
    files: ['tests/e2e/**/*.ts'],
    rules: { 'no-console': 'off' },
  },
  {
    // Plain scripts that run before anything is installed are checked by their JSDoc types, not by what those allow.
    files: ['**/*.{js,mjs,cjs}'],
    rules: {
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
    },
  },
);
