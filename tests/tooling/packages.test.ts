import { describe, expect, test } from 'vitest';
import { packagesMatch, type Lock } from '../../scripts/setup/packages.mjs';

const lock = (packages: Lock['packages']): Lock => ({ packages });

const wanted = lock({
  '': {},
  'node_modules/zod': { version: '4.6.7' },
  'node_modules/other-system': { version: '1.0.0', optional: true },
});

describe('whether the installed packages are the locked ones', () => {
  test.each([
    ['all there', lock({ 'node_modules/zod': { version: '4.6.7' }, 'node_modules/other-system': { version: '1.0.0' } }), true],
    ['one for another system absent', lock({ 'node_modules/zod': { version: '4.6.7' } }), true],
    ['one absent', lock({ 'node_modules/other-system': { version: '1.0.0' } }), false],
    ['one older', lock({ 'node_modules/zod': { version: '4.6.6' } }), false],
    ['an optional one older', lock({ 'node_modules/zod': { version: '4.6.7' }, 'node_modules/other-system': { version: '0.9.0' } }), false],
    ['nothing there', lock({}), false],
  ])('%s: %j', (_name, installed, match) => {
    expect(packagesMatch(wanted, installed)).toBe(match);
  });
});
