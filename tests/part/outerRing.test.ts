import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { INSTRUMENTS, micrometres, millimetres, minus, nanometres, type InstrumentKind } from '../../src/measure/index.ts';
import { fitLimits, mateSchema, readPartFile, type Mate, type Part } from '../../src/part/index.ts';
import { remeasured, routeFor } from '../../src/route/index.ts';
import { ringTolerance } from '../../src/trade/index.ts';
import { cases, value } from '../trade/fixture.ts';

const outside = (nominal: string): Mate =>
  mateSchema.parse({ id: 'ring', kind: 'outer-ring', name: 'Outer ring', say: 'outer ring', nominal });

type Row = { ring: 'inner' | 'outer'; over: number; to: number; seat: string; clearance: number; interference: number };
const published = cases<Row>('bearing-seats').filter(({ ring }) => ring === 'outer');

describe('a bored hole that is the seat of a bearing', () => {
  test('there are 45 published pairs', () => expect(published).toHaveLength(45));

  // The same pairs that the function is held against, here by way of a mate and a fit of a part.
  test.each(published)(
    '$seat over $over to $to mm: clearance $clearance, interference $interference',
    ({ over, to, seat, clearance, interference }) => {
      for (const nominal of [nanometres(millimetres(over) + 1), millimetres(to)]) {
        const { low, high } = value(fitLimits(seat, { ...outside('1mm'), nominal }, INSTRUMENTS));
        const smallest = minus(nominal, value(ringTolerance('outer', nominal)));
        expect([minus(high, smallest), minus(nominal, low)]).toEqual([micrometres(clearance), micrometres(interference)]);
      }
    },
  );

  const file = readPartFile(readFileSync(new URL('../fixtures/part-files/v3/everything.part.json', import.meta.url), 'utf8'));
  if (!file.ok) throw new Error('the example does not read');
  const { part, machines } = file.value;
  const socket = ({ ends }: Part) => {
    const bored = ends.find(({ id }) => id === 'socket');
    if (bored?.kind !== 'bored-hole') throw new Error('the socket is gone');
    return bored.diameter;
  };
  const read = (mm: number, instrument: InstrumentKind) =>
    [{ value: millimetres(mm), place: 'middle', across: 'one-way', instrument }] as const;

  // 12 N7 is -5 to -23 µm (ISO 286-2, in Narayana's table); an outside of 12 is 0 to -8, in the middle 11.996. Worked by hand.
  test('follows from its class, and moves with the ring as it is measured', () => {
    expect(socket(part)).toEqual({ low: millimetres(11.977), high: millimetres(11.995) });
    expect(socket(remeasured(part, { bush: read(11.993, 'micrometer') }))).toEqual({
      low: millimetres(11.974),
      high: millimetres(11.992),
    });
    expect(socket(remeasured(part, { bush: read(11.99, 'caliper') }))).toEqual(socket(part));
  });

  test('is bored to its seat, not tried, and pressed in by its outer ring', () => {
    const { operations } = value(routeFor(part, machines, 'high-speed-steel'));
    const about = operations.filter(({ feature }) => feature === 'socket').map(({ id }) => id);
    expect(about).toEqual(['drill-socket', 'bore-socket', 'assemble-socket']);
    expect(operations.find(({ id }) => id === 'bore-socket')?.target?.fit).toMatchObject({
      mate: 'bush',
      leastClearance: micrometres(-19),
      mostClearance: micrometres(-1),
    });
    expect(operations.find(({ id }) => id === 'assemble-socket')?.note).toContain('Push on the outer ring only.');
    // The ring is its maker's: it may be measured, and need not be.
    expect(operations.some(({ kind, feature }) => kind === 'measure-mate' && feature === 'bush')).toBe(false);
  });
});
