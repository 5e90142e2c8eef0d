import { describe, expect, it } from 'vitest';
import { FILE_VERSION, joinEvents, memoryShelf, momentAfter, writeEvent, type JobHead, type Shelf } from '../../src/shelf/index.ts';
import { seeded } from '../seeded.ts';
import { golden, plan, reading } from './sample.ts';

const head: JobHead = { job: 'job-1', startedAt: 1000, plan: golden.kept.plan, version: FILE_VERSION };
const text = (seq: number, id: string, at: number): string => writeEvent(reading(seq, id, at));

describe('events of other devices', () => {
  it('are laid in by their time and read as a file is', () => {
    const joined = joinEvents(head, [text(1, 'a', 10), text(2, 'b', 30)], [text(1, 'c', 20), text(7, 'a', 10)]);
    expect(joined.ok && joined.value.file?.events.map(({ id, seq }) => [id, seq])).toEqual([
      ['a', 1],
      ['c', 2],
      ['b', 3],
    ]);
    expect(joined.ok && joined.value.refused).toEqual([]);
  });

  it('that are here already make nothing new, whatever they say', () => {
    const changed = text(1, 'a', 10).replace('reading 1', 'reading 9');
    expect(joinEvents(head, [text(1, 'a', 10)], [changed])).toEqual({ ok: true, value: { file: null, refused: [] } });
  });

  it.each([
    ['a value that is none', text(1, 'bad', 15).replace(/"value":"[^"]*"/, '"value":"soon"'), 'invalid'],
    ['no time', '{"id":"bad","seq":1,"v":1,"body":{"type":"TouchedOff"}}', 'invalid'],
    ['an operation that the plan lacks', text(1, 'bad', 15).replace('finish-journal', 'nowhere'), 'invalid'],
    [
      'a strike of what is not there',
      '{"id":"bad","seq":1,"at":15,"v":1,"body":{"type":"EventStruck","event":"ghost"}}',
      'invalid',
    ],
  ])('with %s are left out by themselves and named; the rest come in', (_name, bad, key) => {
    const joined = joinEvents(head, [text(1, 'a', 10)], [bad, text(1, 'good', 20)]);
    expect(joined.ok && joined.value.file?.events.map(({ id }) => id)).toEqual(['a', 'good']);
    expect(joined.ok && joined.value.refused.map(({ id, fault }) => [id, fault.key])).toEqual([['bad', key]]);
  });

  it.each(['', 'null', '[]', '{"id":', '7'])('that are no object at all (%j) are passed over', (bad) => {
    expect(joinEvents(head, [], [bad])).toEqual({ ok: true, value: { file: null, refused: [] } });
  });

  it.each(['', '{}', '[]', '{"id":"x"}'])('with the plan %j are refused as a whole', (bad) => {
    expect(joinEvents({ ...head, plan: bad }, null, []).ok).toBe(false);
  });
});

/** A device: its shelf, a clock that may be put back, and the rule by which the page gives times. */
type Device = { readonly name: string; readonly shelf: Shelf; clock: number; lastAt: number; seq: number };

describe('three and more devices', () => {
  it.each([
    [81, 3],
    [82, 3],
    [83, 4],
    [84, 5],
  ])(
    'seed %i, %i devices: whoever hands to whom, all end with the same log and nothing is missing',
    async (seed, count) => {
      const pick = seeded(seed * 7919);
      const devices: Device[] = Array.from({ length: count }, (_, index) => ({
        name: `d${index}`,
        shelf: memoryShelf(() => 0),
        clock: 1_750_000_000_000 + index * 7000,
        lastAt: 0,
        seq: 1,
      }));
      const said: string[] = [];
      for (const { shelf } of devices) await shelf.start('job-1', plan, 1000);
      const hand = async (from: Device, to: Device): Promise<void> => {
        const copy = await from.shelf.copy('job-1');
        const taken = copy.ok ? await to.shelf.take(copy.value, { newId: 'copy', at: 0 }) : copy;
        expect(taken.ok && taken.value.as).not.toBe('copy');
        const job = await to.shelf.open('job-1');
        if (!job.ok) throw new Error('the job does not open');
        to.seq = job.value.nextSeq;
        to.lastAt = Math.max(to.lastAt, ...job.value.events.map(({ at }) => at));
      };
      const one = (): Device => devices[pick(count)] as Device;
      for (let step = 0; step < 150; step += 1) {
        const device = one();
        if (pick(6) === 0) {
          const other = one();
          if (other !== device) await hand(device, other);
          continue;
        }
        device.clock += pick(8) === 0 ? -20_000 : 1 + pick(900);
        device.lastAt = momentAfter(device.lastAt, device.clock);
        const id = `${device.name}-${step}`;
        expect((await device.shelf.append('job-1', reading(device.seq, id, device.lastAt))).ok).toBe(true);
        device.seq += 1;
        said.push(id);
      }
      // Round twice, so that what the last one knew has reached the first.
      for (let round = 0; round < 2; round += 1)
        for (const [index, device] of devices.entries()) await hand(device, devices[(index + 1) % count] as Device);
      const logs = await Promise.all(devices.map(({ shelf }) => shelf.copy('job-1')));
      const texts = logs.map((log) => (log.ok ? log.value.kept.events : []));
      for (const log of texts) expect(log).toEqual(texts[0]);
      expect(logs[0]?.ok === true && logs[0].value.events.map(({ id }) => id).sort()).toEqual(said.sort());
    },
    60_000,
  );
});
