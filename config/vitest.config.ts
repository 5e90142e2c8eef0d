import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const root = fileURLToPath(new URL('..', import.meta.url));
const everywhere = { root, environment: 'node', passWithNoTests: true } as const;

export default defineConfig({
  root,
  test: {
    projects: [
      {
        test: {
          ...everywhere,
          name: 'rooms',
          include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
          exclude: ['tests/e2e/**', 'tests/rooms/planted/**'],
          testTimeout: 20_000,
        },
      },
      {
        test: {
          ...everywhere,
          name: 'browser-stories',
          include: ['tests/e2e/**/*.test.ts'],
          // One browser at a time: timing is part of what is measured, and two cores are all there is.
          fileParallelism: false,
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
