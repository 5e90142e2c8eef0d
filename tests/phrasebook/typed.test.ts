import { describe, expect, test } from 'vitest';
import { parseLength } from '../../src/measure/index.ts';
import { interpretTyped } from '../../src/phrasebook/index.ts';
import { CONTEXTS, type ContextName } from './contexts.ts';

function typed(text: string, context: ContextName): string {
  const read = interpretTyped(text, CONTEXTS[context]);
  if (!read.ok) return `unheard ${read.error.key}`;
  if (read.value.type !== 'reading') return read.value.type;
  expect(read.value.spoken).toBe(/^[\d.+-]/.test(text.trim()) ? 'typed' : 'bare');
  const { value } = read.value;
  return value.as === 'one' ? String(value.value) : value.as === 'either' ? value.values.join(' or ') : value.reason;
}
const nm = (text: string): string =>
  text.replace(/[\d.]+(in|mm)/g, (size) => {
    const read = parseLength(size, 'inch');
    if (!read.ok) throw new Error(size);
    return String(read.value);
  });

describe('typed readings', () => {
  const rows: readonly (readonly [ContextName, string, string])[] = [
    ['inch .620', '.627', '0.627in'],
    ['inch .620', '0.627', '0.627in'],
    ['inch .620', '.6270', '0.627in'],
    ['inch .620', '.627000', '0.627in'],
    ['inch .620', '627', '0.627in'],
    ['inch .620', '6275', '0.6275in'],
    ['inch .620', '0,627', '0.627in'],
    ['inch .620', ' .627 ', '0.627in'],
    ['inch .620', '5/8', '0.625in'],
    ['inch .620', '15.94mm', '15.94mm'],
    ['inch .620', '.627in', '0.627in'],
    ['inch .620', '1 5/16', '1.3125in'],
    ['inch .620', '+2', '0.622in'],
    ['inch .620', '-2', '0.618in'],
    ['inch .620', '+.002', '0.622in'],
    ['inch .620', '- 2 thou', '0.618in'],
    ['inch .620', '.62743', 'finer-than-instrument'],
    ['inch .620', '100', '0.1in'],
    ['inch 1.250', '1250', '1.25in'],
    ['inch 1.250', '1.25', '1.25in'],
    ['inch nothing', '1250', '1.25in or 0.125in'],
    ['inch nothing', '+2', 'no-target'],
    ['inch length 2.500', '2500', '2.5in'],
    ['inch length 2.500', '2', '0.002in or 2in'],
    ['mm 19', '19.05', '19.05mm'],
    ['mm 19', '1905', '19.05mm'],
    ['mm 19', '19', '19mm'],
    ['mm 19', '19.125', '19.125mm'],
    ['mm 19 fresh', '19.125', 'finer-than-instrument'],
    ['mm 19', '+5', '19.05mm'],
    ['mm 19', '-.02', '18.98mm'],
    ['mm 19', '19050', '19.05mm'],
    ['inch .620', '', 'unheard nothing-said'],
    ['inch .620', 'abc', 'unheard not-a-command'],
    ['inch .620', '.6.2', 'unheard not-a-command'],
    ['inch .620', '5/0', 'unheard not-a-command'],
    ['inch .620', '+x', 'unheard not-a-command'],
    ['inch .620', '+', 'unheard not-a-command'],
    ['inch .620', '- 2', '0.618in'],
    ['inch .620', '.620 +2', 'unheard not-a-command'],
    ['inch .620', 'six twenty +2', 'unheard not-a-command'],
    ['inch .620', '.62743in', '0.62743in'],
    ['mm nothing', '5', '0.05mm or 5mm'],
    ['mm nothing', '50', '0.5mm or 50mm'],
    ['inch nothing', '5', '0.005in or 5in'],
    ['inch .620', 'next', 'next'],
    ['inch .620', 'six twenty seven', '0.627in'],
    ['inch .620', '900000', 'outside-everything'],
  ];
  test.each(rows)('%s: "%s" → %s', (context, text, to) => expect(typed(text, context)).toBe(nm(to)));
  test('an indicator takes its sign as it is', () => {
    const read = interpretTyped('-2', CONTEXTS['inch indicator']);
    expect(read).toMatchObject({ ok: true, value: { type: 'reading', value: { as: 'one', value: -50_800 } } });
  });
  test.each([
    ['2', 50_800],
    ['+12', 304_800],
    ['-12', -304_800],
    ['.0005', 12_700],
  ])('an indicator that shows %s', (text, value) =>
    expect(interpretTyped(text, CONTEXTS['inch indicator'])).toMatchObject({ ok: true, value: { value: { as: 'one', value } } }),
  );
  test.each(['501', '+501', '-501'])('an indicator cannot show %s thou', (text) =>
    expect(interpretTyped(text, CONTEXTS['inch indicator'])).toMatchObject({ ok: true, value: { value: { as: 'none' } } }),
  );
  test('figures inside a phrase are part of it', () =>
    expect(interpretTyped('reads .627', CONTEXTS['inch .620'])).toMatchObject({
      ok: true,
      value: { type: 'reading', spoken: 'with-verb', value: { as: 'one', value: 15_925_800 } },
    }));
});
