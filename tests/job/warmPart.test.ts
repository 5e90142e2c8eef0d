import { describe, expect, it } from 'vitest';
import { glance, type Intent } from '../../src/job/index.ts';
import { celsius } from '../../src/measure/index.ts';
import { given, inch, openAt, pieces, reading, when } from './scene.ts';

const warm = (degrees: number): Intent => ({ type: 'temperature', value: { as: 'one', value: celsius(degrees, 'half-even') } });
const mike = (inches: number): Intent => ({ ...reading(inches), instrument: 'micrometer' }) as Intent;
const finishing = given(openAt('finish-arm-journal'));
const nextTo = (said: ReturnType<typeof when>): string => pieces(said.decision);

/* Steel, 11.5 per million and kelvin (Swyt, J. Res. NIST 99, 1994): 1.0050 in at 50 °C is 1.0050/1.000345 = 1.00465 in at 20. */
describe('the part, read warm', () => {
  it('says the size as read and cold in one breath, and counts what is left from the cold one', () => {
    const told = when(finishing, warm(50), mike(1.005));
    expect(nextTo(told)).toMatch(/^size\(1\.005\) , at-twenty size\(1\.0047\) \. /);
    const look = glance(told.state);
    const aim = look?.window?.aim ?? inch(0);
    expect(((look?.left?.onPart ?? 0) + aim) / 25_400_000).toBeCloseTo(1.0046534, 7);
  });
  it('leaves as much as the coach has to take', () => {
    const look = glance(when(finishing, warm(50), mike(1.005)).state);
    // What the coach believes after one reading lies within its own doubt of the cold reading, and far from the warm one.
    const believed = look?.coach?.size.size ?? 0;
    expect(Math.abs(believed - inch(1.0046534))).toBeLessThan(inch(0.0001));
  });
  it('takes a temperature that is said after the reading for that reading', () => {
    const before = when(finishing, warm(50), mike(1.005)).state;
    const told = when(finishing, mike(1.005), warm(50));
    expect(nextTo(told)).toMatch(/^50°C \. at-twenty size\(1\.0047\) \. /);
    expect(glance(told.state)?.left).toEqual(glance(before)?.left);
    expect(glance(told.state)?.coach).toEqual(glance(before)?.coach);
  });
  it('leaves a reading whose warmth was told as it was told', () => {
    const told = when(finishing, warm(50), mike(1.005), warm(20));
    expect(nextTo(told)).toBe('20°C . noted .');
    expect(glance(told.state)?.left?.onPart).toBe(glance(when(finishing, warm(50), mike(1.005)).state)?.left?.onPart);
  });
  it('says nothing of cold where nobody said how warm it is, or where it makes no difference', () => {
    expect(nextTo(when(finishing, mike(1.005)))).not.toContain('at-twenty');
    expect(nextTo(when(finishing, warm(21), mike(1.005)))).not.toContain('at-twenty');
  });
  it('asks about a size that will be under cold, though it reads inside warm', () => {
    const low = glance(finishing)?.window?.low ?? inch(0);
    const inside = (low + 2540) / 25_400_000;
    expect(when(finishing, mike(1.005), mike(inside)).decision.outcome).toBe('done');
    expect(when(finishing, warm(50), mike(1.005), mike(inside)).decision.reason).toBe('under-the-low-limit');
  });
  it('says both of the last reading, and compares readings cold with cold', () => {
    const { state } = when(finishing, warm(50), mike(1.01), warm(20), mike(1.005));
    expect(pieces(when(state, { type: 'ask-last' }).decision)).toBe('last-reading size(1.005) .');
    // 1.01 at 50 °C is 1.00965 cold.
    expect(pieces(when(state, { type: 'ask-taken' }).decision)).toMatch(/^took-it amount\(0\.0046/);
  });
});
