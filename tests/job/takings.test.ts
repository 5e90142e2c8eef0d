import { describe, expect, it } from 'vitest';
import { inOrder, takingsOf, type EventBody, type Taking } from '../../src/job/index.ts';
import { given, inch, logged } from './scene.ts';

/** The demo's lathe has a cross-slide dial that reads the radius: ten on it are twenty on the diameter. */
const took = (operation: string, onDial: number): EventBody => ({ type: 'CutTaken', operation, onDial: inch(onDial) });
const dial = (operation: string, onDial: number): EventBody => ({ type: 'DialSet', operation, onDial: inch(onDial) });
const filed = (operation: string, count: number): EventBody => ({ type: 'Filed', operation, in: 'rounds', count });

const inInches = ({ reading, off, dialled, filed: rounds }: Taking) => [
  reading.value / 25_400_000,
  off === null ? null : off / 25_400_000,
  dialled === null ? null : dialled / 25_400_000,
  rounds.map(({ count }) => count).join('+'),
];

const rough = 'rough-arm-journal';
const finish = 'finish-arm-journal';
const file = 'file-arm-journal';

describe('how a size came about', () => {
  it('lays what came off beside what was dialled, on the part, through all the steps of a feature', () => {
    const state = given(
      logged(rough, 1.25),
      took(rough, 0.03),
      logged(rough, 1.191),
      took(rough, 0.03),
      took(rough, 0.0254),
      logged(rough, 1.0805),
      dial(finish, 0.01),
      took(finish, 0.01),
      logged(finish, 1.061),
      filed(file, 2),
      filed(file, 3),
      logged(file, 1.06),
      logged(file, 1.0602),
    );
    expect(takingsOf(state, 'arm-journal', 'diameter').map(inInches)).toEqual([
      [1.25, null, null, ''],
      [1.191, 0.059, 0.06, ''],
      [1.0805, 0.1105, 0.1108, ''],
      [1.061, 0.0195, 0.02, ''],
      [1.06, 0.001, null, '2+3'],
      [1.0602, -0.0002, null, ''],
    ]);
  });

  it('forgets what was dialled where the tool is touched off anew, and what was struck', () => {
    const cut = [logged(rough, 1.25), took(rough, 0.05)];
    const anew = given(...cut, { type: 'TouchedOff', operation: rough }, took(rough, 0.01), logged(rough, 1.2305));
    expect(takingsOf(anew, 'arm-journal', 'diameter').map(inInches)[1]).toEqual([1.2305, 0.0195, 0.02, '']);
    const second = inOrder(given(...cut).log)[1]?.id ?? '';
    const struck = given(...cut, { type: 'EventStruck', event: second }, logged(rough, 1.2305));
    expect(takingsOf(struck, 'arm-journal', 'diameter').map(inInches)[1]).toEqual([1.2305, 0.0195, null, '']);
  });

  it('tells nothing of a feature that was not measured', () => {
    expect(takingsOf(given(), 'arm-journal', 'diameter')).toEqual([]);
    expect(takingsOf(given(logged(rough, 1.25)), 'arm-journal', 'length')).toEqual([]);
  });
});
