import { readFileSync } from 'node:fs';
import { beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { StoreApi } from 'zustand/vanilla';
import { createAssistant, type AssistantState, type PageEar } from '../../src/app/index.ts';
import { deciding, reading } from '../../src/app/conversation.ts';
import { standingReadings } from '../../src/job/index.ts';
import { memoryShelf, type Shelf } from '../../src/shelf/index.ts';
import { TestEar, TestVoice } from './test-ports.ts';

const demo = (name: string): string => readFileSync(new URL(`../../src/shelf/demos/${name}.job.json`, import.meta.url), 'utf8');
const NOON = Date.UTC(2026, 0, 5, 12);

/** `storedElsewhere` tells the page that another window or device has written to the open job. */
type Bench = {
  store: StoreApi<AssistantState>;
  ear: TestEar;
  voice: TestVoice;
  shelf: Shelf;
  marks: object[];
  storedElsewhere: () => void;
};

function bench(shelf: Shelf = memoryShelf(() => NOON), openEar?: () => Promise<PageEar>): Bench {
  const ear = new TestEar();
  const voice = new TestVoice();
  const marks: object[] = [];
  let ids = 0;
  let storedElsewhere = (): void => undefined;
  const store = createAssistant({
    shelf,
    holdJob: (_job, edges) => {
      storedElsewhere = () => edges.onStored(0);
      return Promise.resolve({
        standing: () => 'writing',
        takeOver: () => Promise.resolve(),
        announce: () => undefined,
        release: () => undefined,
      });
    },
    openEar: openEar ?? (() => Promise.resolve(ear)),
    openVoice: () => Promise.resolve(voice),
    now: () => NOON,
    tick: () => 0,
    afterPainting: () => Promise.resolve(),
    drawn: () => Promise.resolve(),
    newId: () => `id-${(ids += 1)}`,
    demos: { inch: () => Promise.resolve(demo('inch')), metric: () => Promise.resolve(demo('metric')) },
    keepStored: () => Promise.resolve(),
    mark: (_name, _start, _end, detail) => marks.push(detail),
  });
  return { store, ear, voice, shelf, marks, storedElsewhere: () => storedElsewhere() };
}

/** Lets everything that was begun come to its end: all of it is promises, none of it waits for a clock. */
// The page fetches these after it is drawn; what is waited for here is the work, not the fetching.
beforeAll(() => Promise.all([deciding(), reading(), import('../../src/app/jobFiles.ts')]));

const settled = (): Promise<void> => new Promise((done) => setTimeout(done, 20));

describe('the assistant', () => {
  let b: Bench;
  const state = (): AssistantState => b.store.getState();
  const readings = (): number => (state().job === null ? 0 : standingReadings(state().job!.state));

  beforeEach(async () => {
    b = bench();
    await settled();
    await state().listen('hold');
  });

  it('does once what it hears once, however often its way of listening was changed', async () => {
    await state().listen('open');
    state().stopListening();
    await state().listen('call');
    b.ear.says('next');
    await settled();
    expect(b.marks).toHaveLength(1);
    expect(state().reply?.text).toContain('Step two');
  });

  it('shows that its name was heard for as long as the window is open, whatever is heard in it', async () => {
    await state().listen('call');
    const called = (): readonly [boolean, string] => [state().listening.called, state().listening.state];
    expect(called()).toEqual([false, 'waiting']);
    b.ear.tell({ type: 'window', open: true });
    b.ear.says('next');
    await settled();
    expect(called()).toEqual([true, 'waiting']);
    b.ear.tell({ type: 'window', open: false });
    expect(called()).toEqual([false, 'waiting']);
    b.ear.tell({ type: 'window', open: true });
    await state().restart('ear');
    expect(called()).toEqual([false, 'waiting']);
  });

  it('opens one ear for two presses, and listens as the second said', async () => {
    let opened = 0;
    const twice = bench(
      memoryShelf(() => NOON),
      () => {
        opened += 1;
        return new Promise((resolve) => setTimeout(() => resolve(twice.ear), 5));
      },
    );
    await settled();
    await Promise.all([twice.store.getState().listen('hold'), twice.store.getState().listen('open')]);
    expect([opened, twice.ear.started, twice.store.getState().listening.state]).toEqual([1, 'open', 'waiting']);
  });

  it('opens on the demo, says the first step, and gives the ear a grammar', () => {
    expect(state().page).toBe('machine');
    expect(b.voice.said[0]).toContain('Grip the bar');
    expect(b.ear.started).toBe('hold');
    expect(b.ear.grammars.length).toBeGreaterThan(0);
  });

  it('does what is heard, speaks the answer, and marks how long it took', async () => {
    b.ear.says('next');
    await settled();
    expect(state().reply?.text).toBe('Step two. Turn the collar. Target one two fifty.');
    expect(state().heard).toMatchObject({ words: 'next', from: 'voice', outcome: 'done' });
    expect(b.marks).toMatchObject([{ heard: 'next', endpointMs: 300, recogniserMs: 5 }]);
  });

  it('takes nothing from sound that was not made out: asks again when it was held, keeps quiet when it was not', async () => {
    b.ear.says('reads one point two', false);
    await settled();
    expect(state().reply?.text).toBe('Say again. I heard reads one point two.');
    const spoken = b.voice.said.length;
    await state().listen('open');
    b.ear.says('target', false);
    await settled();
    expect(b.voice.said.length).toBe(spoken);
    expect(readings()).toBe(0);
  });

  it('wants the verb of a reading while it listens always, and not while a button is held', async () => {
    await state().command({ type: 'next' });
    await state().listen('open');
    b.ear.says('one two sixty');
    await settled();
    expect(state().reply?.text).toBe('Say reads, then the number.');
    expect(readings()).toBe(0);
    b.ear.says('reads one two sixty');
    await settled();
    expect(readings()).toBe(1);
    await state().listen('hold');
    b.ear.says('one two fifty five');
    await settled();
    expect(readings()).toBe(2);
  });

  it('is deaf while it speaks, and hears again afterwards', () => {
    b.voice.tell(true);
    expect(b.ear.isDeaf).toBe(true);
    expect(state().listening.state).toBe('speaking');
    b.voice.tell(false);
    expect(b.ear.isDeaf).toBe(false);
    expect(state().listening.state).toBe('waiting');
  });

  it('typed, pressed and said come to the same log', async () => {
    await state().command({ type: 'next' });
    await state().typed('1.260');
    b.ear.says('reads one two fifty five');
    await settled();
    await state().command({
      type: 'reading',
      spoken: 'typed',
      instrument: null,
      thing: null,
      place: null,
      value: { as: 'one', value: 31_750_000 as never },
    });
    expect(readings()).toBe(3);
    await state().command({ type: 'scratch' });
    expect(readings()).toBe(2);
  });

  it('reopens the last job where it was left', async () => {
    await state().command({ type: 'next' });
    await state().typed('1.260');
    const again = bench(b.shelf);
    await settled();
    expect(again.store.getState().page).toBe('machine');
    expect(standingReadings(again.store.getState().job!.state)).toBe(1);
    expect(again.store.getState().job?.state.open).toBe('turn-collar');
  });

  it('keeps a memo with its sound, once it is asked for', async () => {
    b.ear.says('memo');
    await settled();
    expect(state().reply?.text).toBe('Memo kept.');
    const job = state().job!;
    const memo = job.state.log?.top.body;
    expect(memo).toMatchObject({ type: 'MemoKept', seconds: 10 });
    expect(await b.shelf.clip(job.id, memo?.type === 'MemoKept' ? memo.clip : '')).toEqual({
      ok: true,
      value: new Uint8Array([1, 2, 3]),
    });
  });

  it('goes on by touch when the ear does not start, says so, and offers to start it again', async () => {
    const broken = bench(
      memoryShelf(() => NOON),
      () => Promise.reject(new Error('The microphone is not allowed.')),
    );
    await settled();
    await broken.store.getState().listen('hold');
    expect(broken.store.getState().listening.state).toBe('broken');
    expect(broken.store.getState().notices).toMatchObject([{ part: 'ear', text: 'The microphone is not allowed.' }]);
    await broken.store.getState().command({ type: 'next' });
    expect(broken.store.getState().job?.state.open).toBe('turn-collar');
  });

  it('does not acknowledge what the store refused, keeps it, and puts it into the file', async () => {
    await state().command({ type: 'next' });
    const append = b.shelf.append.bind(b.shelf);
    b.shelf.append = (job) => Promise.resolve({ ok: false, error: { key: 'disk-full', job } });
    await state().typed('1.260');
    expect(state().reply?.text).toBe('Not stored; the store failed.');
    expect(state().unstored).toBe(1);
    expect(state().notices.some((notice) => notice.part === 'shelf')).toBe(true);
    expect((await state().exportJob())?.text).toContain('"1.26in"');
    b.shelf.append = append;
    await state().typed('1.255');
    expect(state().unstored).toBe(0);
    expect(readings()).toBe(2);
  });

  it.each([
    ['store-denied', { key: 'store-denied', detail: 'SecurityError' }, /refuses to store/],
    ['disk-full', { key: 'disk-full', job: 'demo' }, /The device is full/],
  ] as const)(
    'works in memory where nothing can be stored (%s), says so, and offers it as a file',
    async (_name, fault, says) => {
      const refused = { ok: false, error: fault } as const;
      const shelf = { ...memoryShelf(() => NOON), take: () => Promise.resolve(refused), append: () => Promise.resolve(refused) };
      const other = bench(shelf);
      await settled();
      const told = (): string | undefined => other.store.getState().notices.find(({ part }) => part === 'shelf')?.text;
      expect(other.store.getState().page).toBe('machine');
      expect(told()).toMatch(says);
      await other.store.getState().command({ type: 'next' });
      await other.store.getState().typed('1.260');
      expect(other.store.getState().reply?.text).toBe('Not stored; the store failed.');
      expect(told()).toMatch(says);
      await other.store.getState().command({ type: 'ask-left' });
      expect(told()).toMatch(says);
      expect(other.store.getState().unstored).toBeGreaterThan(0);
      expect((await other.store.getState().exportJob())?.text).toContain('"1.26in"');
    },
  );

  it('answers a turn that is being taken while another window writes', async () => {
    await state().command({ type: 'next' });
    const taken = state().typed('1.260');
    b.storedElsewhere();
    await taken;
    expect(state().reply?.text).toContain('One two sixty');
    await settled();
    expect(readings()).toBe(1);
  });

  it('leaves a question open while another window writes, and drops it with its step', async () => {
    await state().command({ type: 'next' });
    await state().command({ type: 'next' });
    expect(state().job?.talk.question?.about).toBe('leave');
    b.storedElsewhere();
    await settled();
    expect(state().job?.talk.question?.about).toBe('leave');
    const { id, state: now } = state().job!;
    const third = now.plan.route.operations[2]!.id;
    const seq = (now.log?.top.seq ?? 0) + 1;
    await b.shelf.append(id, { id: 'elsewhere', seq, at: NOON + 9, v: 1, body: { type: 'OperationOpened', operation: third } });
    b.storedElsewhere();
    await settled();
    expect(state().job?.state.open).toBe(third);
    expect(state().job?.talk.question).toBeNull();
  });

  it('keeps what the disk would not take while another window writes', async () => {
    await state().command({ type: 'next' });
    b.shelf.append = (job) => Promise.resolve({ ok: false, error: { key: 'disk-full', job } });
    await state().typed('1.260');
    b.storedElsewhere();
    await settled();
    expect(state().unstored).toBe(1);
    expect(readings()).toBe(1);
    await state().openJob(state().job!.id);
    expect(state()).toMatchObject({ page: 'machine', unstored: 1 });
  });

  it('says what is wrong with a file and keeps the open job', async () => {
    await state().importJob('scrap.json', '{"format":');
    expect(state().notices).toMatchObject([{ part: 'file' }]);
    expect(state().notices[0]?.text).toMatch(/^scrap\.json: line 1, column \d+/);
    expect(state().job?.state.plan.id).toBe(JSON.parse(demo('inch')).plan.id);
  });

  it('exports a job that comes back the same', async () => {
    await state().command({ type: 'next' });
    await state().typed('1.260');
    const file = await state().exportJob();
    const other = bench();
    await settled();
    await other.store.getState().importJob('job.json', file?.text ?? '');
    expect(standingReadings(other.store.getState().job!.state)).toBe(1);
    await other.store.getState().importJob('job.json', file?.text ?? '');
    expect(other.store.getState().notices.at(-1)?.text).toContain('here already');
  });

  it('says how far a long file has come, and opens it', async () => {
    const job = JSON.parse(demo('metric')) as { events: unknown[]; plan: { route: { operations: readonly { id: string }[] } } };
    const operation = job.plan.route.operations[0]?.id;
    const entry = (seq: number): unknown => {
      const as = { quantity: 'diameter', value: '16mm', instrument: 'micrometer', place: null, confirmed: false };
      const body = { type: 'ReadingLogged', operation, ...as, words: 'sixteen millimetres' };
      return { id: `long-${seq}`, seq, at: NOON + seq, v: 1, body };
    };
    job.events = Array.from({ length: 5_000 }, (_, index) => entry(index + 1));
    const text = JSON.stringify(job);
    const said: string[] = [];
    b.store.subscribe(({ notices }) => {
      const line = notices.find(({ part }) => part === 'file')?.text ?? '';
      if (line !== '' && said.at(-1) !== line) said.push(line);
    });
    await state().importJob('long.json', text);
    expect(said).toEqual([
      'long.json: It is long, and is being read and checked.',
      ...[500, 1000, 1500, 2000, 2500, 3000, 3500, 4000, 4500, 5000].map(
        (events) => `long.json: ${events} of 5000 entries are in; the job is there when all are.`,
      ),
      'long.json: All 5000 entries are in. The job is being opened.',
      'long.json: The job was added.',
    ]);
    expect(state().job?.state.plan.id).toBe(JSON.parse(demo('metric')).plan.id);
  });

  it('wipes the device when told to, and starts from an empty list', async () => {
    await state().command({ type: 'next' });
    await state().wipe();
    expect(state()).toMatchObject({ page: 'jobs', job: null, jobs: [] });
    expect(await b.shelf.jobs()).toEqual({ ok: true, value: [] });
  });

  it('turns the sound up and down, stops listening, shows the phrases', async () => {
    b.ear.says('louder');
    await settled();
    expect(state().volume).toBe(0.7);
    b.ear.says('stop listening');
    await settled();
    expect(b.ear.started).toBeNull();
    b.ear.says('what can i say');
    await settled();
    expect(state().page).toBe('phrases');
  });
});
