import { describe, expect, it } from 'vitest';
import { memoryShelf, type JobFile, type Shelf } from '../../src/shelf/index.ts';
import { mergeLogs } from '../../src/shelf/mergeLogs.ts';
import { seeded } from '../seeded.ts';
import { golden, plan, reading } from './sample.ts';

/** Logs in short: `a1` is an event of id a1 at time 1; the number of the event is its place. */
const log = (short: string): string[] =>
  short.split(' ').filter((id) => id !== '').map((id, index) => {
    const [, name = '', at = '', feel = ''] = /^([a-z]+\d*?)(\d+)(!?)$/.exec(id) ?? [];
    return JSON.stringify({ id: name + at, seq: index + 1, at: Number(at), v: 1, body: { type: 'TouchedOff', operation: `op-${name}`, feel } });
  });

describe('two logs made one', () => {
  it.each([
    ['', '', '', 0],
    ['a1 a2', 'a1 a2', 'a1 a2', 0],
    ['a1 a2 a3', 'a1', 'a1 a2 a3', 0],
    ['a1', 'a1 a2 a3', 'a1 a2 a3', 2],
    ['a1 a2 b5', 'a1 a2 c3 c7', 'a1 a2 c3 b5 c7', 2],
    ['a1 b5', 'a1 c5', 'a1 b5 c5', 1],
    // The clock of b was put back between its events: its own order stands.
    ['a1 b9 b2', 'a1 c5', 'a1 c5 b9 b2', 1],
    ['a1 b5 c6 b7', 'a1 c6 c8', 'a1 b5 c6 b7 c8', 1],
    ['b1', 'c2', 'b1 c2', 1],
  ])('%j and %j give %j', (here, there, together, added) => {
    const one = mergeLogs(log(here), log(there));
    const other = mergeLogs(log(there), log(here));
    expect(one).toMatchObject({ as: 'merged', events: log(together), added });
    expect(other).toMatchObject({ as: 'merged', events: log(together) });
  });

  it.each([
    ['one id with two contents', 'a1 b2', 'a1 b2!'],
    ['what is shared in another order', 'a1 b2 b3', 'a1 b3 b2'],
  ])('%s is no one history', (_name, here, there) => {
    expect(mergeLogs(log(here), log(there))).toEqual({ as: 'no-one-history' });
    expect(mergeLogs(log(there), log(here))).toEqual({ as: 'no-one-history' });
  });

  it('names the operations where both were busy', () => {
    expect(mergeLogs(log('a1 b2 c3'), log('a1 d2 c4'))).toMatchObject({ both: ['op-c'] });
    expect(mergeLogs(log('a1 b2'), log('a1 c2'))).toMatchObject({ both: [] });
  });
});

type Device = { readonly name: string; readonly shelf: Shelf; clock: number };
const copyOf = async (device: Device): Promise<JobFile> => {
  const copy = await device.shelf.copy('golden-axle-1');
  if (!copy.ok) throw new Error('the job is not there');
  return copy.value;
};

describe('devices that hand a job to and fro by file', () => {
  it.each([31, 32, 33])('seed %i: end with the same log, and nothing is missing', async (seed) => {
    const pick = seeded(seed * 104_729);
    const devices: Device[] = ['desk', 'tablet'].map((name, index) => ({ name, shelf: memoryShelf(() => 0), clock: 1_750_000_100_000 + index * 5000 }));
    const said: string[] = [];
    for (const { shelf } of devices) await shelf.take(golden, { newId: 'unused', at: 0 });
    const hand = async (from: Device, to: Device): Promise<void> => {
      const taken = await to.shelf.take(await copyOf(from), { newId: 'copy', at: 0 });
      expect(taken.ok && taken.value.as).not.toBe('copy');
    };
    for (let step = 0; step < 120; step += 1) {
      const device = devices[pick(2)] as Device;
      const other = devices.find((one) => one !== device) as Device;
      if (pick(10) === 0) {
        await hand(device, other);
        continue;
      }
      // Clocks run on, and now and then one is put back.
      device.clock += pick(20) === 0 ? -3000 : 1 + pick(400);
      const seq = (await copyOf(device)).kept.events.length + 1;
      const id = `${device.name}-${step}`;
      expect((await device.shelf.append('golden-axle-1', reading(seq, id, device.clock))).ok).toBe(true);
      said.push(id);
    }
    const [desk, tablet] = devices as [Device, Device];
    await hand(desk, tablet);
    await hand(tablet, desk);
    const [one, other] = [await copyOf(desk), await copyOf(tablet)];
    expect(one.kept).toEqual(other.kept);
    const ids = one.events.map((event) => event.id);
    expect(new Set(ids).size).toBe(ids.length);
    expect([...ids].sort()).toEqual([...golden.events.map((event) => event.id), ...said].sort());
    for (const { shelf } of devices) {
      const job = await shelf.open('golden-axle-1');
      expect(job.ok && job.value.damage).toEqual([]);
      expect(job.ok && job.value.events.map((event) => event.seq)).toEqual(ids.map((_, index) => index + 1));
    }
  }, 20_000);

  it('a file that changes nothing writes nothing', async () => {
    const shelf = memoryShelf(() => 0);
    await shelf.start('job-1', plan, 1000);
    await shelf.append('job-1', reading(1));
    const before = await shelf.copy('job-1');
    const taken = before.ok && (await shelf.take(before.value, { newId: 'copy', at: 0 }));
    expect(taken).toEqual({ ok: true, value: { as: 'already-here', id: 'job-1', newer: 0 } });
    expect(await shelf.copy('job-1')).toEqual(before);
  });
});
