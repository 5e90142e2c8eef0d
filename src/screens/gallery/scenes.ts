import { inches, micrometres, millimetres, type Length } from '../../measure/index.ts';
import type { EventBody, Plan } from '../../job/index.ts';
import { draftOfPart, editDraft, newDraft, nextRowId, type Draft, type DraftEdit } from '../../part/index.ts';
import type { AssistantState, Hearing } from '../../app/index.ts';
import { fakeStore, type FakeStore } from './fakeStore.ts';
import { inchPlan, metricPlan } from './plans.ts';

const read = (operation: string, value: Length, instrument: 'caliper' | 'micrometer' = 'micrometer'): EventBody => ({
  type: 'ReadingLogged',
  operation,
  quantity: 'diameter',
  value,
  instrument,
  place: null,
  words: '',
  confirmed: false,
});
const jaw = (operation: string, number: number, indicator: Length): EventBody => ({
  type: 'JawRead',
  operation,
  jaw: number,
  indicator,
});
const turned = (operation: string, degrees: number, indicator: Length): EventBody => ({
  type: 'SpindleRead',
  operation,
  degrees,
  indicator,
});
const took = (operation: string, onDial: Length): EventBody => ({ type: 'CutTaken', operation, onDial });
const filed = (operation: string, count: number): EventBody => ({ type: 'Filed', operation, in: 'rounds', count });
const memo = (operation: string, seconds: number): EventBody => ({ type: 'MemoKept', operation, clip: 'clip', seconds });
const open = (operation: string): EventBody => ({ type: 'OperationOpened', operation });
const doneAll = (plan: Plan, until: string | null): EventBody[] => {
  const operations = plan.route.operations;
  const end = until === null ? operations.length : operations.findIndex((operation) => operation.id === until);
  return operations
    .slice(0, end)
    .map((operation) => ({ type: 'OperationFinished', operation: operation.id, standing: 'no-size' }));
};
const at = (plan: Plan, operation: string, ...events: EventBody[]): EventBody[] => [
  ...doneAll(plan, operation),
  open(operation),
  ...events,
];
const bore: EventBody[] = [1.0004, 1.0007, 1.0003].map((size) => ({
  type: 'MateMeasured',
  operation: 'measure-arm-bore',
  mate: 'arm-bore',
  value: inches(size),
  instrument: 'telescoping-gauge',
  place: null,
  words: '',
  confirmed: false,
}));

/** A piece that was made, the last reading of the arm journal so many tenths under its own. */
function made(tenthsUnder: number): readonly EventBody[] {
  const [rough, finish, file] = ['rough-arm-journal', 'finish-arm-journal', 'file-arm-journal'] as const;
  return [
    ...doneAll(inchPlan, null),
    ...bore,
    read('turn-collar', inches(1.2503), 'caliper'),
    ...[read(rough, inches(1.2504), 'caliper'), took(rough, inches(0.03)), read(rough, inches(1.1915), 'caliper')],
    ...[took(rough, inches(0.03)), took(rough, inches(0.03)), read(rough, inches(1.0725), 'caliper')],
    ...[took(rough, inches(0.021)), read(rough, inches(1.0305))],
    ...[took(finish, inches(0.0075)), read(finish, inches(1.0161)), took(finish, inches(0.0075)), read(finish, inches(1.0014))],
    ...[filed(file, 2), read(file, inches(1.0007)), filed(file, 4), read(file, inches(0.9995))],
    ...[memo(file, 6), filed(file, 2), read(file, inches((9989 - tenthsUnder) / 10_000))],
    { type: 'FitFelt', operation: file, feel: 'slides' },
    read('polish-bearing-seat', inches(0.7871)),
    read('finish-cam', inches((8746 - tenthsUnder) / 10_000)),
  ];
}

/** The spindle, made: every size that can be read, one left a little over and one not measured. */
function madeInMillimetres(): readonly EventBody[] {
  const mm = (operation: string, ...sizes: readonly number[]): EventBody[] =>
    sizes.map((size) => read(operation, millimetres(size)));
  const mate = (operation: string, id: string, ...sizes: readonly number[]): EventBody[] =>
    sizes.map((size) => ({
      type: 'MateMeasured',
      operation,
      mate: id,
      value: millimetres(size),
      instrument: 'telescoping-gauge',
      place: null,
      words: '',
      confirmed: false,
    }));
  return [
    ...doneAll(metricPlan, null),
    read('turn-collar', millimetres(40.02), 'caliper'),
    ...mate('measure-front-bush', 'front-bush', 30.012, 30.009, 30.014),
    ...mate('measure-roll-bore', 'roll-bore', 25.006, 25.008),
    ...[...mm('rough-front-journal', 31.04), ...mm('rough-roll-seat', 26.1)],
    ...[took('finish-front-journal', millimetres(0.5)), ...mm('finish-front-journal', 30.52)],
    ...[took('finish-front-journal', millimetres(0.5)), ...mm('finish-front-journal', 30.02)],
    ...[filed('file-front-journal', 3), ...mm('file-front-journal', 29.995)],
    ...[filed('file-front-journal', 3), ...mm('file-front-journal', 29.972)],
    { type: 'FitFelt', operation: 'file-front-journal', feel: 'slides' },
    ...mm('finish-roll-seat', 25.02, 24.991),
    ...mm('finish-rear-journal', 24.985),
    ...mm('finish-crank-end', 19.99),
  ];
}

/** Invented: a micrometer that was checked against gauge blocks, and a caliper that is worn. */
const ownInstruments: NonNullable<Plan['instruments']> = [
  { kind: 'micrometer', resolution: micrometres(1), permissibleError: micrometres(2) },
  { kind: 'caliper', resolution: null, permissibleError: micrometres(50) },
];

const listening: AssistantState['listening'] = {
  mode: 'open',
  state: 'waiting',
  levelDb: -31,
  floorDb: -44,
  tooLoud: false,
  callName: 'shop hand',
  called: false,
};
const nothing = (): void => undefined;

const draftOf = (plan: Plan): Draft => draftOfPart(plan.part, plan.machines, 'draft');
const laidOut = (draft: Draft): FakeStore => fakeStore(null, [], { page: 'layout', draft });

/** A part of as many steps as a drawing must hold: twenty, long and short ones in turn, with sizes of up to six figures. */
function ofTwenty(): Draft {
  let draft = { ...newDraft('draft', 'millimetre', null), turned: [] } as Draft;
  for (let step = 0; step < 20; step += 1) {
    const row = nextRowId(draft);
    draft = editDraft(draft, { edit: 'add', group: 'turned', kind: 'journal', after: null });
    const values = {
      name: `Step ${step + 1}`,
      diameter: `${20 + ((step * 7) % 13)}.${step % 10}25`,
      length: `${4 + ((step * 11) % 30)}`,
    };
    for (const [field, text] of Object.entries(values))
      draft = editDraft(draft, { edit: 'type', group: 'turned', row, field, text });
  }
  return draft;
}

const hearing: Hearing = {
  settings: { callName: 'Swarfside', headset: false, microphone: null, personal: null },
  change: nothing,
  study: () => Promise.resolve(null),
  fit: () => Promise.resolve(null),
};

/** Every state of the pages worth looking at, each as a store with real demo data. */
export const SCENES: Readonly<Record<string, () => FakeStore>> = {
  jobs: () =>
    fakeStore(null, [], {
      jobs: [
        {
          id: 'a',
          title: inchPlan.title,
          invented: true,
          startedAt: Date.UTC(2026, 2, 12, 8),
          changedAt: Date.UTC(2026, 2, 14, 11, 5),
          events: 41,
        },
        {
          id: 'b',
          title: metricPlan.title,
          invented: true,
          startedAt: Date.UTC(2026, 1, 2, 8),
          changedAt: Date.UTC(2026, 1, 3, 17, 40),
          events: 1,
        },
      ],
    }),
  'jobs-empty': () =>
    fakeStore(null, [], {
      notices: [
        {
          id: 'n',
          part: 'file',
          text: 'bracket.json, plan.part.stock.size: "25" is not a length with its unit, such as "0.627in"',
          remedy: null,
        },
      ],
    }),
  grip: () => fakeStore(inchPlan),
  fresh: () => fakeStore(inchPlan, at(inchPlan, 'turn-collar')),
  roughing: () =>
    fakeStore(
      inchPlan,
      at(inchPlan, 'turn-collar', read('turn-collar', inches(1.5), 'caliper'), read('turn-collar', inches(1.424), 'caliper')),
    ),
  reading: () => {
    const store = fakeStore(
      inchPlan,
      at(
        inchPlan,
        'finish-arm-journal',
        ...bore,
        read('finish-arm-journal', inches(1.0302)),
        read('finish-arm-journal', inches(1.0122)),
        read('finish-arm-journal', inches(1.0072)),
      ),
      { listening },
    );
    void store.getState().typed('1.0034');
    return store;
  },
  'at-size': () => {
    const store = fakeStore(
      inchPlan,
      at(
        inchPlan,
        'file-arm-journal',
        ...bore,
        read('file-arm-journal', inches(1.001)),
        read('file-arm-journal', inches(1.0002)),
        read('file-arm-journal', inches(0.9995)),
      ),
      { listening },
    );
    void store.getState().typed('.9989');
    return store;
  },
  under: () =>
    fakeStore(inchPlan, at(inchPlan, 'finish-cam', read('finish-cam', inches(0.8771)), read('finish-cam', inches(0.8737)))),
  bore: () => fakeStore(inchPlan, at(inchPlan, 'measure-arm-bore', ...bore)),
  metric: () => {
    const store = fakeStore(
      metricPlan,
      at(
        metricPlan,
        'finish-roll-seat',
        read('finish-roll-seat', millimetres(25.49)),
        read('finish-roll-seat', millimetres(25.21)),
      ),
      { listening: { ...listening, mode: 'call', state: 'hearing', levelDb: -18 } },
    );
    void store.getState().typed('25.04');
    return store;
  },
  jaws: () =>
    fakeStore(
      inchPlan,
      at(inchPlan, 'dial-in-offset', jaw('dial-in-offset', 1, inches(0.012)), jaw('dial-in-offset', 3, inches(0.2))),
    ),
  'high-spot': () =>
    fakeStore(
      inchPlan,
      at(inchPlan, 'find-high-spot', turned('find-high-spot', 0, inches(0.031)), turned('find-high-spot', 90, inches(0.112))),
    ),
  edges: () => fakeStore(inchPlan, at(inchPlan, 'find-edges')),
  tap: () =>
    fakeStore(inchPlan, at(inchPlan, 'tap-keeper', { type: 'SetUpCounted', operation: 'tap-keeper', what: 'turns', count: 3 })),
  caution: () => fakeStore(inchPlan, at(inchPlan, 'rough-cam')),
  'caution-alone': () => fakeStore(inchPlan, at(inchPlan, 'part-off')),
  'question-sure': () => {
    const store = fakeStore(inchPlan, at(inchPlan, 'finish-arm-journal', read('finish-arm-journal', inches(1.0122))));
    void store.getState().typed('1.2022');
    return store;
  },
  'question-leave': () => {
    const store = fakeStore(inchPlan, at(inchPlan, 'finish-arm-journal'));
    void store.getState().command({ type: 'next' });
    return store;
  },
  'question-which': () => {
    const store = fakeStore(inchPlan, at(inchPlan, 'turn-collar', read('turn-collar', inches(1.264))));
    void store.getState().command({
      type: 'reading',
      spoken: 'bare',
      instrument: null,
      thing: null,
      place: null,
      value: { as: 'either', values: [inches(1.26), inches(1.206)] },
    });
    return store;
  },
  'no-microphone': () =>
    fakeStore(inchPlan, at(inchPlan, 'rough-bearing-seat'), {
      listening: { ...listening, state: 'broken', levelDb: null, floorDb: null },
      notices: [
        {
          id: 'n',
          part: 'ear',
          text: 'The microphone is not allowed. Buttons and typing go on.',
          remedy: { label: 'Try again', run: nothing },
        },
      ],
    }),
  off: () =>
    fakeStore(inchPlan, at(inchPlan, 'rough-bearing-seat'), {
      listening: { ...listening, mode: 'hold', state: 'off', levelDb: null, floorDb: null },
    }),
  'too-loud': () =>
    fakeStore(inchPlan, at(inchPlan, 'rough-bearing-seat', read('rough-bearing-seat', inches(0.91), 'caliper')), {
      listening: { ...listening, tooLoud: true, levelDb: -9, floorDb: -12 },
    }),
  unstored: () =>
    fakeStore(inchPlan, at(inchPlan, 'rough-bearing-seat'), {
      unstored: 2,
      notices: [
        { id: 's', part: 'shelf', text: 'The disk is full. Readings are kept in memory until there is room.', remedy: null },
      ],
    }),
  'all-done': () => fakeStore(inchPlan, doneAll(inchPlan, null)),
  record: () => {
    const store = fakeStore(inchPlan, [
      ...at(inchPlan, 'measure-arm-bore', ...bore),
      ...at(
        inchPlan,
        'finish-arm-journal',
        read('finish-arm-journal', inches(1.0122)),
        read('finish-arm-journal', inches(1.0022)),
      ),
    ]);
    void store.getState().command({ type: 'scratch' });
    void store.getState().typed('1.0012');
    void store.getState().command({ type: 'next' });
    void store.getState().typed('.9988');
    void store.getState().command({ type: 'feel', feel: 'slides' });
    store.getState().goTo('record');
    return store;
  },
  'record-made': () => {
    const store = fakeStore(inchPlan, made(0));
    store.getState().goTo('record');
    return store;
  },
  'record-metric': () => {
    const store = fakeStore(metricPlan, madeInMillimetres());
    store.getState().goTo('record');
    return store;
  },
  'record-own-instruments': () => {
    const store = fakeStore({ ...metricPlan, instruments: ownInstruments }, madeInMillimetres());
    store.getState().goTo('record');
    return store;
  },
  'layout-empty': () => laidOut(newDraft('draft', 'inch', null)),
  'layout-inch': () => laidOut(draftOf(inchPlan)),
  'layout-metric': () => laidOut(draftOf(metricPlan)),
  'layout-twenty': () => laidOut(ofTwenty()),
  'layout-wrong': () =>
    laidOut(
      [
        { edit: 'type-about', field: 'material', text: 'unobtainium' },
        { edit: 'type', group: 'turned', row: draftOf(inchPlan).turned[1]?.id ?? '', field: 'diameter', text: 'about an inch' },
        { edit: 'add', group: 'turned', kind: 'journal', after: null },
      ].reduce((draft, edit) => editDraft(draft, edit as DraftEdit), draftOf(inchPlan)),
    ),
  'layout-own-instruments': () =>
    laidOut(
      [
        { edit: 'type-instrument', kind: 'micrometer', figure: 'permissibleError', text: '.00015' },
        { edit: 'type-instrument', kind: 'caliper', figure: 'resolution', text: '.001' },
        { edit: 'type-instrument', kind: 'caliper', figure: 'permissibleError', text: 'good enough' },
      ].reduce((draft, edit) => editDraft(draft, edit as DraftEdit), draftOf(inchPlan)),
    ),
  voice: () => fakeStore(inchPlan, [], { page: 'voice', listening: { ...listening, mode: 'call' }, hearing }),
  'voice-off': () =>
    fakeStore(null, [], { page: 'voice', listening: { ...listening, mode: 'hold', state: 'off', levelDb: null, floorDb: null } }),
  keys: () => fakeStore(inchPlan, [], { page: 'keys' }),
  compare: () => {
    const other = fakeStore(inchPlan, made(3)).getState().job?.state ?? null;
    const store = fakeStore(inchPlan, made(0), {
      jobs: [
        { id: 'b', title: inchPlan.title, invented: true, startedAt: 0, changedAt: Date.UTC(2026, 1, 3, 17, 40), events: 40 },
      ],
    });
    store.setState({ pieceOf: () => Promise.resolve(other) });
    store.getState().goTo('compare');
    return store;
  },
  phrases: () => fakeStore(inchPlan, at(inchPlan, 'finish-arm-journal'), { page: 'phrases' }),
};
