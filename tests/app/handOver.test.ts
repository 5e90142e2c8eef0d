import { expect, test } from 'vitest';
import { createHandOver, type HandOver } from '../../src/app/index.ts';
import type { Replica } from '../../src/app/replica.ts';
import { memoryShelf, type JobHead, type Shelf } from '../../src/shelf/index.ts';
import { plan, reading } from '../shelf/sample.ts';

const JOB = 'shared';
const NOON = 1_800_000_000_000;

/** What two devices have told, without a network between: each hears of it when `arrive` is called. */
function shared() {
  const heads = new Map<string, JobHead>();
  const texts = new Map<string, string>();
  const changed: ((jobs: ReadonlySet<string>) => void)[] = [];
  const due: (() => void)[] = [];
  const replica: Replica = {
    put: (head, events) => {
      heads.set(head.job, head);
      for (const text of events) texts.set((JSON.parse(text) as { id: string }).id, text);
    },
    head: (job) => heads.get(job) ?? null,
    events: () => [...texts.values()],
    close: () => undefined,
  };
  function device(): { readonly shelf: Shelf; readonly start: HandOver['start'] } {
    const { shelf, store } = createHandOver({
      shelf: memoryShelf(() => NOON),
      openReplica: ({ onChange, onStanding }) => {
        changed.push(onChange);
        onStanding('connected');
        return Promise.resolve(replica);
      },
      newId: () => 'new',
      now: () => NOON,
      later: (work) => void due.push(work),
      onTaken: () => undefined,
      onStored: () => undefined,
      onRefused: (line) => {
        throw new Error(line);
      },
    });
    return { shelf, start: store.getState().start };
  }
  const arrive = (at: number): void => {
    changed[at]?.(new Set([JOB]));
    due.splice(0).forEach((work) => work());
  };
  return { device, arrive };
}

const idsIn = async (shelf: Shelf): Promise<readonly string[]> => {
  const copy = await shelf.copy(JOB);
  return copy.ok ? copy.value.events.map(({ id }) => id) : [];
};

test('a reading that was decided before others came in and stored after them lies in one place on both devices', async () => {
  const { device, arrive } = shared();
  const [desk, tablet] = [device(), device()];
  expect((await desk.shelf.start(JOB, plan, NOON)).ok).toBe(true);
  expect((await desk.shelf.open(JOB)).ok).toBe(true);
  await desk.start('code');
  await tablet.start('code');
  arrive(1);
  await expect.poll(async () => (await tablet.shelf.open(JOB)).ok).toBe(true);

  // The tablet's reading has its number and its time, and is not stored yet; two of the desk's, later by the clock, come first.
  const decided = reading(1, 'of-the-tablet', NOON + 10);
  expect((await desk.shelf.append(JOB, reading(1, 'of-the-desk-1', NOON + 20))).ok).toBe(true);
  expect((await desk.shelf.append(JOB, reading(2, 'of-the-desk-2', NOON + 30))).ok).toBe(true);
  arrive(1);
  await expect.poll(() => idsIn(tablet.shelf)).toHaveLength(2);
  expect((await tablet.shelf.append(JOB, decided)).ok).toBe(true);
  arrive(0);
  await expect.poll(() => idsIn(desk.shelf)).toHaveLength(3);
  expect(await idsIn(tablet.shelf)).toEqual(['of-the-desk-1', 'of-the-desk-2', 'of-the-tablet']);
  expect(await idsIn(desk.shelf)).toEqual(await idsIn(tablet.shelf));
});
