import { describe, expect, test } from 'vitest';
import { Endpointer, ENDPOINTS, type Endpoint } from '../../src/ear/endpointer.ts';

/**
 * A course of levels in a small notation: `-60*100` is a hundred frames (a second) at -60 dB; pieces stand one after another.
 * Each frame wavers by up to a decibel, as any room does.
 */
function levels(course: string): number[] {
  return course.split(' ').flatMap((piece) => {
    const [db, frames] = piece.split('*').map(Number);
    return Array.from({ length: frames! }, (_, at) => db! + Math.sin(at * 2.3 + frames!));
  });
}

function run(course: string, floorDb: number | null = null): Endpoint[] {
  const endpointer = new Endpointer(ENDPOINTS, floorDb);
  const found: Endpoint[] = [];
  for (const level of levels(course)) {
    const end = endpointer.frame(level);
    if (end !== null) found.push(end);
  }
  const last = endpointer.flush();
  return last === null ? found : [...found, last];
}

/** Syllables: 120 ms of sound, 60 ms of dip. */
const speech = (db: number, syllables: number): string =>
  Array.from({ length: syllables }, () => `${db}*12 ${db - 18}*6`).join(' ');

describe('Endpointer', () => {
  test.each([
    ['a short word', `-65*100 -25*20 -65*100`, [[100, 119]]],
    ['a number with a pause in it of 400 ms is one', `-65*100 ${speech(-25, 4)} -65*40 ${speech(-25, 3)} -65*100`, [[100, 259]]],
    [
      'two things with a second between are two',
      `-65*100 -25*30 -65*100 -25*30 -65*100`,
      [
        [100, 129],
        [230, 259],
      ],
    ],
    ['a click of 30 ms is nothing', `-65*100 -15*3 -65*200`, []],
    ['speech in a noise 12 dB under it', `-45*300 ${speech(-30, 5)} -45*100`, [[300, 385]]],
    ['silence', `-80*500`, []],
    ['speech that goes on to the end of the file', `-65*100 ${speech(-25, 6)}`, [[100, 201]]],
  ])('%s', (_, course, expected) => {
    const ends = run(course).filter((each) => each.type === 'end');
    expect(ends.map((each) => each.first)).toEqual(expected.map(([first]) => first));
    expected.forEach(([, last], at) => expect(Math.abs(ends[at]!.last - last!)).toBeLessThanOrEqual(6));
  });

  test('the end is known the hangover after the last sound', () => {
    const endpointer = new Endpointer();
    const course = levels('-65*100 -25*30 -65*100');
    const at = course.findIndex((level) => endpointer.frame(level)?.type === 'end');
    expect((at - 129) * 10).toBe(ENDPOINTS.hangoverMs);
  });

  test('a machine that is switched on becomes the floor within two and a half seconds, and speech over it is heard', () => {
    const ends = run(`-65*200 -40*700 ${speech(-22, 5)} -40*100`).filter((each) => each.type === 'end');
    expect(ends.length).toBe(2);
    expect(ends[0]!.last - 200).toBeLessThan(200);
    expect(Math.abs(ends[1]!.first - 900)).toBeLessThanOrEqual(2);
  });

  test('a machine that is switched off is forgotten, and soft speech is heard again', () => {
    const ends = run(`-35*400 -65*300 -48*30 -65*100`).filter((each) => each.type === 'end');
    expect(ends.map((each) => each.first)).toEqual([700]);
  });

  test('in a file speech may come at once, since its quiet is known', () => {
    expect(run('-25*30 -65*80', -65)[0]).toEqual({ type: 'start', first: 0 });
  });

  test('what is dropped is never ended', () => {
    const endpointer = new Endpointer();
    for (const level of levels('-65*100 -25*30')) endpointer.frame(level);
    expect(endpointer.open).toMatchObject({ first: 100, last: 129 });
    endpointer.drop();
    expect(
      levels('-65*200')
        .map((level) => endpointer.frame(level))
        .filter((each) => each !== null),
    ).toEqual([]);
  });
});
