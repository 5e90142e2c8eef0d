import { describe, expect, it } from 'vitest';
import { glance, type Intent } from '../../src/job/index.ts';
import { given, inch, one, pieces, reading, turnedCollar, when } from './scene.ts';

const took = (inches: number): Intent => ({ type: 'took', value: one(inch(inches)) });
const mike = (inches: number): Intent => ({ ...reading(inches), instrument: 'micrometer' }) as Intent;

describe('the coach in the job', () => {
  it('asks again where a reading contradicts the cut that was said, and names the slip', () => {
    const { decision } = when(given(turnedCollar), mike(1.3), took(0.02), mike(1.3));
    expect(decision.outcome).toBe('asked');
    expect(decision.reason).toBe('contradicts-the-cuts');
    expect(pieces(decision)).toContain('slip-before');
  });
  it('believes a second reading that agrees with the one it doubted', () => {
    const { decision } = when(given(turnedCollar), mike(1.3), took(0.02), mike(1.3), mike(1.3001));
    expect(decision.events[0]).toMatchObject({ type: 'ReadingLogged', confirmed: true });
  });
  it('takes the advised cut as taken where none was said', () => {
    const { state } = when(given(turnedCollar), mike(1.26), mike(1.255));
    expect(glance(state)?.coach?.size.spread).toBeLessThan(inch(0.0003));
    expect(glance(state)?.coach?.kind).toBe('cut');
  });
  it('shows the next dial and the size it expects after it', () => {
    const coach = glance(when(given(turnedCollar), mike(1.26)).state)?.coach;
    expect(coach?.onDial).toBe(inch(0.0025));
    expect(coach?.expected?.size).toBeGreaterThan(inch(1.25));
    expect(coach?.expected?.size).toBeLessThan(inch(1.257));
  });
  it('gives the reason of its last advice', () => {
    expect(pieces(when(given(turnedCollar), mike(1.26), { type: 'ask-why' }).decision)).toBe('why-two-equal .');
  });
});
