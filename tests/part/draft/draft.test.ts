import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { inches } from '../../../src/measure/index.ts';
import {
  DRAFT_KINDS,
  draftOfPart,
  draftSchema,
  editDraft,
  newDraft,
  partSchema,
  readDraft,
  typedSize,
  type Draft,
  type DraftEdit,
  type Part,
} from '../../../src/part/index.ts';
import { nanometres, parseLength } from '../../../src/measure/index.ts';
import inchJob from '../../../src/shelf/demos/inch.job.json' with { type: 'json' };
import metricJob from '../../../src/shelf/demos/metric.job.json' with { type: 'json' };
import { machineSchema } from '../../../src/part/index.ts';

const edited = (draft: Draft, ...edits: readonly DraftEdit[]): Draft => edits.reduce(editDraft, draft);

/** A part without its ids: a draft makes them anew from the names, and speaks a mate by its name. */
function withoutIds(part: Part): unknown {
  const names = new Map([...part.mates, ...part.turned, ...part.ends, ...part.milled].map((each) => [each.id, each.name]));
  const plain = (value: unknown): unknown => {
    if (typeof value === 'string') return names.get(value) ?? value;
    if (Array.isArray(value)) return value.map(plain);
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(
      Object.entries(value).flatMap(([key, member]) => (key === 'id' || key === 'say' ? [] : [[key, plain(member)]])),
    );
  };
  return plain(part);
}

describe('a part as a draft', () => {
  test.each([
    ['inch', inchJob],
    ['metric', metricJob],
  ])('the demo part (%s) goes into a draft and reads back, sizes to the nanometre', (_name, job) => {
    const part = partSchema.parse(job.plan.part);
    const machines = job.plan.machines.map((machine) => machineSchema.parse(machine));
    const draft = draftOfPart(part, machines, 'd');
    expect(draftSchema.parse(JSON.parse(JSON.stringify(draft)))).toEqual(draft);
    const read = readDraft(draft);
    expect(read.problems).toEqual([]);
    expect(withoutIds(read.part as Part)).toEqual(withoutIds(part));
    expect(
      read.machines?.map(({ crossSlide, carriage, spindleSpeeds, feeds }) => ({ crossSlide, carriage, spindleSpeeds, feeds })),
    ).toEqual(machines.map(({ crossSlide, carriage, spindleSpeeds, feeds }) => ({ crossSlide, carriage, spindleSpeeds, feeds })));
  });

  test('every size is typed so that it reads back to the same nanometre (seed 11)', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 3_000_000_000 }),
        fc.constantFrom('inch' as const, 'millimetre' as const),
        (nm, unit) => {
          const read = parseLength(typedSize(nanometres(nm), unit), unit);
          return read.ok && read.value === nm;
        },
      ),
      { seed: 11, numRuns: 2000 },
    );
  });
});

const named = (group: 'turned' | 'mates', row: string, values: Readonly<Record<string, string>>): DraftEdit[] =>
  Object.entries(values).map(([field, text]) => ({ edit: 'type', group, row, field, text }));

const lathe = { name: 'Lathe', crossDivision: '.001', crossTurn: '.1', reads: 'radius', spindleSpeeds: '70 150 280 560' };

/** A pin that slides in a bore, laid out from nothing. */
const pin = edited(
  newDraft('d', 'inch', null),
  ...Object.entries({ name: 'Pin', size: '1 1/4', length: '4', material: 'steel 1018' }).map(
    ([field, text]): DraftEdit => ({ edit: 'type-about', field, text }),
  ),
  ...Object.entries(lathe).map(([field, text]): DraftEdit => ({ edit: 'type', group: 'machines', row: 'r1', field, text })),
  { edit: 'add', group: 'mates', kind: 'bore', after: null },
  ...named('mates', 'r2', { name: 'Arm bore', nominal: '1', readings: '1.0004 1.0003, 1.0007', instrument: 'micrometer' }),
  { edit: 'add', group: 'turned', kind: 'collar', after: null },
  ...named('turned', 'r3', { name: 'Head', diameter: '1 1/4', length: '1/2' }),
  { edit: 'add', group: 'turned', kind: 'journal', after: 'r3' },
  ...named('turned', 'r4', { name: 'Shank', mate: 'r2', diameter: 'slide', length: '1.5' }),
);

describe('a draft that is typed from nothing', () => {
  test('is a part once everything reads, its ids from its names, its bore at the smallest reading', () => {
    // Commas part the readings where there is one: blanks then belong to a fraction.
    const commas = edited(pin, ...named('mates', 'r2', { readings: '1.0004, 1.0003, 1.0007' }));
    const read = readDraft(commas);
    expect(read.problems).toEqual([]);
    expect(read.part?.mates).toMatchObject([
      {
        id: 'arm-bore',
        nominal: inches(1),
        readings: [{ value: inches(1.0004) }, { value: inches(1.0003) }, { value: inches(1.0007) }],
      },
    ]);
    expect(read.part?.turned.map((feature) => feature.id)).toEqual(['head', 'shank']);
    expect(read.part?.turned[1]).toMatchObject({ mate: 'arm-bore', fit: 'slide', finish: 'turned', between: null });
    expect(read.ids.row.get('shank')).toBe('r4');
  });

  test('what does not read is kept, named with its field, and leaves the rest of the drawing', () => {
    const wrong = edited(pin, ...named('turned', 'r4', { diameter: 'about an inch' }));
    const read = readDraft(wrong);
    expect(read.part).toBeNull();
    expect(read.problems).toContainEqual(expect.objectContaining({ group: 'turned', row: 'r4', field: 'diameter' }));
    expect(wrong.turned[1]?.values['diameter']).toBe('about an inch');
    expect(read.sketch[0]?.sizes).toHaveProperty('diameter');
    expect(read.sketch[1]?.sizes).toHaveProperty('length');
    expect(read.sketch[1]?.sizes).not.toHaveProperty('diameter');
  });

  test.each([
    ['inch', 'crossDivision', 'what one division of the dial stands for: .001'],
    ['millimetre', 'crossTurn', 'what one turn of the dial stands for: 4'],
  ] as const)('in %s an empty dial (%s) says what of it is wanted, in its own unit', (unit, field, says) => {
    const { problems } = readDraft(newDraft('d', unit, null));
    expect(problems.find((problem) => problem.field === field)?.says).toBe(says);
    // Only limits can be written as a tolerance of ISO 286.
    expect(problems.find((problem) => problem.field === 'length')?.says).not.toContain('h6');
  });

  test('a thread gives its own major diameter, a tapped hole its drill', () => {
    const read = readDraft(
      edited(
        pin,
        { edit: 'add', group: 'ends', kind: 'tapped-hole', after: null },
        ...Object.entries({ name: 'Keeper thread', designation: '5/16-18', drillDepth: '1', threadDepth: '.75' }).map(
          ([field, text]): DraftEdit => ({ edit: 'type', group: 'ends', row: 'r5', field, text }),
        ),
        ...named('mates', 'r2', { readings: '' }),
      ),
    );
    // Letter F, .257: Machinery's Handbook 31st ed., tap drills.
    expect(read.part?.ends[0]).toMatchObject({ drill: inches(0.257), end: 'left' });
  });

  test('a row that is taken out is no longer chosen elsewhere', () => {
    const without = editDraft(pin, { edit: 'remove', group: 'mates', row: 'r2' });
    expect(without.turned[1]?.values).not.toHaveProperty('mate');
    expect(readDraft(without).problems).toContainEqual(expect.objectContaining({ row: 'r4', field: 'diameter' }));
  });

  test('in another unit every size is the same to the nanometre, and words stay', () => {
    const commas = edited(
      pin,
      ...named('mates', 'r2', { readings: '1.0004 near, 1.0003 far across' }),
      ...named('turned', 'r3', { diameter: '1.248 to 1.252' }),
    );
    const metric = editDraft(commas, { edit: 'unit', unit: 'millimetre' });
    expect(metric.turned[1]?.values['diameter']).toBe('slide');
    const [before, after] = [readDraft(commas), readDraft(metric)];
    expect(after.problems).toEqual([]);
    expect({ ...after.part, unit: 'inch' }).toEqual(before.part);
    expect(after.machines).toEqual(before.machines);
  });

  test('two rows of one name get two ids', () => {
    const read = readDraft(edited(pin, ...named('turned', 'r4', { name: 'Head' }), ...named('mates', 'r2', { readings: '' })));
    expect(read.part?.turned.map((feature) => feature.id)).toEqual(['head', 'head-2']);
  });
});

test('any text in any field of any kind reads or is refused with its place, and never throws (seed 12)', () => {
  const text = fc.oneof(
    fc.string({ maxLength: 12 }),
    fc.constantFrom('1', '.5', 'slide', 'r2', 'play 1 to 2', '5/16-18', '25h6', '-1', '1/0', '0'),
  );
  const row = fc
    .constantFrom(...DRAFT_KINDS)
    .chain(({ kind, group, fields }) =>
      fc
        .tuple(...fields.map(() => text))
        .map((texts) => ({ kind, group, values: Object.fromEntries(fields.map((field, at) => [field.name, texts[at] ?? ''])) })),
    );
  fc.assert(
    fc.property(fc.array(row, { minLength: 1, maxLength: 4 }), (rows) => {
      let draft = pin;
      for (const { kind, group, values } of rows) {
        draft = editDraft(draft, { edit: 'add', group, kind, after: null });
        const id = `r${draft.added}`;
        for (const [field, typed] of Object.entries(values))
          draft = editDraft(draft, { edit: 'type', group, row: id, field, text: typed });
      }
      const read = readDraft(draft);
      return (
        (read.part === null) === read.problems.length > 0 &&
        read.sketch.filter(({ group }) => group === 'turned').length === draft.turned.length
      );
    }),
    { seed: 12, numRuns: 400 },
  );
});
