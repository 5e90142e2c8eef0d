import { describe, expect, test } from 'vitest';
import { nodeWillDo, packagesMatch, type Lock } from '../../scripts/setup/packages.mjs';

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

describe('whether Node is recent enough', () => {
  test.each([
    ['20.19.0', true],
    ['20.20.2', true],
    ['20.18.3', false],
    ['18.99.0', false],
    ['22.0.0', true],
    ['100.1.0', true],
  ])('%s where 20.19 is the oldest: %j', (version, enough) => {
    expect(nodeWillDo(version, '20.19')).toBe(enough);
  });
});
