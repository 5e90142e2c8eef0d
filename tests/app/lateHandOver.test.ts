import { describe, expect, test } from 'vitest';
import type { HandOverDeps } from '../../src/app/handOver.ts';
import { lateHandOver } from '../../src/app/lateHandOver.ts';
import { memoryShelf } from '../../src/shelf/index.ts';

function bench() {
  let opened = 0;
  let closed = 0;
  const refused: string[] = [];
  const deps: HandOverDeps = {
    shelf: memoryShelf(() => 0),
    openReplica: ({ onStanding }) => {
      opened += 1;
      onStanding('connected');
      return Promise.resolve({ put: () => undefined, head: () => null, events: () => [], close: () => (closed += 1) } as never);
    },
    newId: () => 'id',
    now: () => 0,
    later: () => undefined,
    onTaken: () => undefined,
    onStored: () => undefined,
    onRefused: (line) => refused.push(line),
  };
  const late = lateHandOver(deps);
  return { late, refused, standing: () => late.store.getState().standing, opened: () => opened, closed: () => closed };
}

describe('the hand-over that is fetched late', () => {
  test('is off until a code is typed, then stands as the hand-over stands', async () => {
    const b = bench();
    expect([b.standing(), b.opened()]).toEqual(['off', 0]);
    await b.late.store.getState().start('code');
    expect([b.standing(), b.opened(), b.refused]).toEqual(['connected', 1, []]);
    b.late.store.getState().stop();
    expect([b.standing(), b.closed()]).toEqual(['off', 1]);
  });

  test('turned off while it is fetched, it stays off', async () => {
    const b = bench();
    const starting = b.late.store.getState().start('code');
    expect(b.standing()).toBe('connecting');
    b.late.store.getState().stop();
    await starting;
    expect([b.standing(), b.opened()]).toEqual(['off', 0]);
  });

  test('the shelf works before and after alike', async () => {
    const b = bench();
    expect((await b.late.shelf.open('nothing')).ok).toBe(false);
    await b.late.store.getState().start('code');
    expect((await b.late.shelf.open('nothing')).ok).toBe(false);
    expect((await b.late.shelf.jobs()).ok).toBe(true);
  });
});
