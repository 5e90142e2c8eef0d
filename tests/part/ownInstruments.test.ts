import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  instrumentsOf,
  micrometres,
  millimetres,
  minus,
  plus,
  type InstrumentKind,
  type OwnFigure,
} from '../../src/measure/index.ts';
import {
  draftOfPart,
  draftSchema,
  editDraft,
  fitLimits,
  mateSchema,
  newDraft,
  ownInstrumentsSchema,
  readDraft,
  readPartFile,
  type Draft,
  type DraftEdit,
} from '../../src/part/index.ts';
import { HAND_FITS, handClearances } from '../../src/trade/index.ts';

const everything = JSON.parse(
  readFileSync(new URL('../fixtures/part-files/v2/everything.part.json', import.meta.url), 'utf8'),
) as Readonly<Record<string, unknown>>;

/** The example part file, with instruments where there are any. */
function opened(instruments?: unknown) {
  const read = readPartFile(JSON.stringify({ ...everything, ...(instruments === undefined ? {} : { instruments }) }));
  if (!read.ok) throw new Error(read.error.says);
  return read.value;
}
const { part, machines } = opened();

const typed = (kind: InstrumentKind, figure: OwnFigure, text: string): DraftEdit => ({
  edit: 'type-instrument',
  kind,
  figure,
  text,
});
const edited = (draft: Draft, ...edits: readonly DraftEdit[]): Draft => edits.reduce(editDraft, draft);

describe('own instruments in a file', () => {
  test.each<readonly [name: string, json: unknown, says: RegExp | null]>([
    ['none', [], null],
    ['both figures', [{ kind: 'caliper', resolution: '0.0005in', permissibleError: '0.02mm' }], null],
    ['one figure alone', [{ kind: 'rule', permissibleError: '0.2mm' }], null],
    ['an error of nothing', [{ kind: 'micrometer', permissibleError: '0mm' }], null],
    ['no unit', [{ kind: 'caliper', resolution: '0.0005' }], /is not a length with its unit/],
    ['a step of nothing', [{ kind: 'caliper', resolution: '0mm' }], /a step is more than nothing/],
    ['an error under nothing', [{ kind: 'caliper', permissibleError: '-0.01mm' }], /an error is nothing or more/],
    ['a step coarser than a rule’s', [{ kind: 'rule', resolution: '1/32in' }], /coarser than any rule is read/],
    ['an unknown kind', [{ kind: 'laser' }], /expected one of/],
    ['a kind that stands twice', [{ kind: 'rule' }, { kind: 'caliper' }, { kind: 'rule' }], /the rule stands here twice/],
  ])('%s', (_name, json, says) => {
    const read = ownInstrumentsSchema.safeParse(json);
    expect(read.success).toBe(says === null);
    if (says !== null) expect(read.error?.issues[0]?.message).toMatch(says);
  });

  test('a diameter that is left out beside its fit follows from what the file’s own micrometer may be off', () => {
    const seat = (instruments?: unknown) => {
      const feature = opened(instruments).part.turned.find(({ id }) => id === 'hub-seat');
      return feature !== undefined && 'diameter' in feature ? feature.diameter : null;
    };
    const smallest = micrometres(30_012);
    const { least, most } = handClearances('slide', smallest);
    const off = micrometres(4);
    expect(seat([{ kind: 'micrometer', permissibleError: '0.004mm' }])).toEqual({
      low: plus(minus(smallest, most), off),
      high: minus(minus(smallest, least), off),
    });
    expect(seat([])).toEqual(seat());
  });

  test('what is wrong in them refuses the file by its place', () => {
    const read = readPartFile(JSON.stringify({ ...everything, instruments: [{ kind: 'caliper', resolution: '1in' }] }));
    expect(read).toMatchObject({ ok: false, error: { path: ['instruments', 0, 'resolution'] } });
  });

  test('a coarser instrument never widens what a fit by hand accepts (seed 773)', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...HAND_FITS),
        fc.constantFrom('bore' as const, 'shaft' as const),
        fc.integer({ min: 6_000, max: 80_000 }),
        fc.integer({ min: 0, max: 20 }),
        fc.integer({ min: 0, max: 20 }),
        (fit, kind, um, error, more) => {
          const value = `${um / 1000}mm`;
          const mate = mateSchema.parse({
            id: 'm',
            kind,
            name: 'M',
            say: 'm',
            nominal: value,
            readings: [{ value, instrument: 'micrometer' }],
          });
          const [fine, coarse] = [error, error + more].map((off) =>
            fitLimits(fit, mate, instrumentsOf([{ kind: 'micrometer', resolution: null, permissibleError: micrometres(off) }])),
          );
          if (coarse?.ok !== true) return;
          expect(fine?.ok).toBe(true);
          if (fine?.ok !== true) return;
          expect(coarse.value.low).toBeGreaterThanOrEqual(fine.value.low);
          expect(coarse.value.high).toBeLessThanOrEqual(fine.value.high);
        },
      ),
      { seed: 773 },
    );
  });
});

describe('own instruments at the desk', () => {
  const draft = draftOfPart(part, machines, 'd');

  test('a draft of before opens as it was: every instrument is as the standard says', () => {
    const { instruments, ...before } = draft;
    expect(instruments).toEqual([]);
    expect(draftSchema.parse(before)).toEqual(draft);
    expect(readDraft(draftSchema.parse(before)).instruments).toEqual([]);
  });

  test('are typed as sizes are, and read once both figures do', () => {
    const own = edited(
      draft,
      typed('caliper', 'resolution', '.0005in'),
      typed('caliper', 'permissibleError', '0.02'),
      typed('rule', 'permissibleError', '.2mm'),
    );
    expect(readDraft(own)).toMatchObject({
      problems: [],
      instruments: [
        { kind: 'caliper', resolution: 12_700, permissibleError: millimetres(0.02) },
        { kind: 'rule', resolution: null, permissibleError: millimetres(0.2) },
      ],
    });
    expect(draftSchema.parse(JSON.parse(JSON.stringify(own)))).toEqual(own);
  });

  test.each([
    ['resolution', 'fine', /“fine” is not a size/],
    ['resolution', '0', /a step is more than nothing/],
    ['resolution', '1', /coarser than any rule is read/],
    ['permissibleError', '-0.01', /an error is nothing or more|is not a size/],
  ] as const)('%s typed as “%s” is kept, and said at its field', (figure, text, says) => {
    const own = edited(draft, typed('caliper', figure, text));
    const read = readDraft(own);
    expect(own.instruments).toMatchObject([{ kind: 'caliper', [figure]: text }]);
    expect(read.part).toBeNull();
    expect(read.problems).toEqual([
      { group: 'instruments', row: 'caliper', field: figure, says: expect.stringMatching(says) as string },
    ]);
  });

  test('one press, or emptying both fields, brings the standard back', () => {
    const own = edited(draft, typed('caliper', 'resolution', '0.02'), typed('caliper', 'permissibleError', '0.03'));
    expect(edited(own, { edit: 'standard-instrument', kind: 'caliper' })).toEqual(draft);
    expect(edited(own, typed('caliper', 'resolution', ''), typed('caliper', 'permissibleError', ''))).toEqual(draft);
  });

  test('go with the unit, and into the next draft, as the machines do', () => {
    const own = edited(draft, typed('caliper', 'resolution', '0.0127'), typed('caliper', 'permissibleError', '0.0254'));
    const inch = editDraft(own, { edit: 'unit', unit: 'inch' });
    expect(inch.instruments).toEqual([{ kind: 'caliper', resolution: '.0005', permissibleError: '.001' }]);
    expect(readDraft(inch).instruments).toEqual(readDraft(own).instruments);
    expect(newDraft('next', 'inch', own).instruments).toEqual(inch.instruments);
  });

  test('move a size that is fitted to what they read', () => {
    const seat = (from: Draft) => readDraft(from).sketch.find(({ name }) => name === 'Hub seat')?.sizes['diameter'];
    const [before, after] = [draft, edited(draft, typed('micrometer', 'permissibleError', '0.004'))].map(seat);
    // The standard's .0001 in is 2.54 µm.
    expect(Number(after?.low) - Number(before?.low)).toBe(4000 - 2540);
    expect(Number(before?.high) - Number(after?.high)).toBe(4000 - 2540);
  });

  test('are typed anew so that they read back to the nanometre (seed 774)', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 500_000 }),
        fc.integer({ min: 0, max: 500_000 }),
        fc.constantFrom('inch' as const, 'millimetre' as const),
        (step, error, unit) => {
          const own = [{ kind: 'caliper' as const, resolution: step, permissibleError: error }] as never;
          expect(readDraft(draftOfPart({ ...part, unit }, machines, 'd', own)).instruments).toEqual(own);
        },
      ),
      { seed: 774, numRuns: 60 },
    );
  });
});
