import {
  INSTRUMENTS,
  larger,
  parseLength,
  smaller,
  thou,
  millimetres,
  writeLength,
  type DisplayUnit,
  type InstrumentKind,
  type Length,
} from '../../measure/index.ts';
import { externalMajor, nearestDrill, parseThread, tapHole, type SizeLimits } from '../../trade/index.ts';
import { machineSchema, type Machine } from '../machine.ts';
import { partSchema, type Part } from '../part.ts';
import { DRAFT_GROUPS, typedIn, type Draft, type DraftGroup, type DraftRow } from './draft.ts';
import { ABOUT_FIELDS, draftKind, type DraftField } from './kinds.ts';
import { idsOf, type DraftIds } from './draftIds.ts';
import { describeLengthError, describeLimitsFault, readWrittenLimits, type KnownMate } from './writtenLimits.ts';

/** Where something is wrong: a field of a row, or of the draft itself where `row` is null. `field` null: the row as a whole. */
export type DraftPlace = { readonly group: DraftGroup | 'about'; readonly row: string | null; readonly field: string | null };
export type DraftProblem = DraftPlace & { readonly says: string };

/** What a field was read as, to be shown beside it. */
export type FieldReading = {
  readonly low: Length;
  readonly high: Length;
  readonly fit: string | null;
  readonly unproven: boolean;
};

/** A turned row as far as it reads, for the drawing. */
export type SketchFeature = {
  readonly id: string;
  readonly kind: string;
  readonly name: string;
  readonly sizes: Readonly<Record<string, FieldReading>>;
};

/**
 * What a draft amounts to. `part` and `machines` are null while anything keeps them from being read; then `problems` says what and
 * where. `sketch` holds every turned row, however little of it reads; `ids` leads from the ids of the part back to the rows.
 */
export type DraftReading = {
  readonly part: Part | null;
  readonly machines: readonly Machine[] | null;
  readonly problems: readonly DraftProblem[];
  readonly sketch: readonly SketchFeature[];
  readonly mates: ReadonlyMap<string, KnownMate>;
  readonly ids: DraftIds;
};

type Json = string | number | null | Json[] | { [key: string]: Json };
type Read = { readonly json: Json; readonly reading: FieldReading | null } | { readonly says: string };

/** What a size without limits may be off, where the field for it does not read: three places in inches, common practice, no source. */
const generalOf = (draft: Draft): Length => {
  const read = parseLength(typedIn(draft.about, 'general'), draft.unit);
  return read.ok ? read.value : draft.unit === 'inch' ? thou(5) : millimetres(0.1);
};

/** Several sizes in one field: parted by commas or semicolons, or by blanks where there are none of these. */
const several = (text: string): readonly string[] =>
  text
    .split(/[,;]/.test(text) ? /[,;]/ : /\s+/)
    .map((each) => each.trim())
    .filter((each) => each !== '');

function sizesIn(text: string, unit: DisplayUnit): { readonly sizes: readonly Length[] } | { readonly says: string } {
  const sizes: Length[] = [];
  for (const each of several(text)) {
    const read = parseLength(each, unit);
    if (!read.ok) return { says: describeLengthError(read.error) };
    sizes.push(read.value);
  }
  return { sizes };
}

/** The mates that a size can be fitted to: what they measure, else what they are called to be. */
function knownMates(draft: Draft): ReadonlyMap<string, KnownMate> {
  const known = new Map<string, KnownMate>();
  for (const row of draft.mates) {
    const nominal = parseLength(typedIn(row.values, 'nominal'), draft.unit);
    const read = sizesIn(typedIn(row.values, 'readings'), draft.unit);
    const readings = 'sizes' in read ? read.sizes : [];
    const holds = row.kind === 'width' ? 'length' : 'shaft';
    const [first] = readings;
    if (first === undefined && !nominal.ok) continue;
    const measured = readings.reduce<Length | null>(
      (worst, each) => (worst === null ? each : (holds === 'length' ? larger : smaller)(worst, each)),
      null,
    );
    const size = measured ?? (nominal.ok ? nominal.value : (first as Length));
    const instrument = typedIn(row.values, 'instrument') as InstrumentKind;
    // Before it is measured its size is taken as true: the route has it measured, and the window moves with it.
    const uncertainty =
      measured === null ? (0 as Length) : (INSTRUMENTS[instrument] ?? INSTRUMENTS.micrometer).permissibleError(size);
    known.set(row.id, { size, nominal: nominal.ok ? nominal.value : size, uncertainty, holds });
  }
  return known;
}

type Scene = {
  readonly draft: Draft;
  readonly mates: ReadonlyMap<string, KnownMate>;
  readonly ids: DraftIds;
  readonly general: Length;
};

const written = ({ low, high }: SizeLimits): Json => ({ low: writeLength(low), high: writeLength(high) });

/** The mate that a field's fit is to: a length is fitted to what it holds, all else to the bore it goes into. */
function mateFor(row: DraftRow | null, field: DraftField, mates: Scene['mates']): KnownMate | null {
  if (row === null) return null;
  return mates.get(typedIn(row.values, field.name === 'length' ? 'between' : 'mate')) ?? null;
}

function emptyField(field: DraftField, row: DraftRow | null, { draft }: Scene): Read {
  const thread = row === null ? null : parseThread(typedIn(row.values, 'designation'));
  if (thread !== null && thread.ok && field.name === 'major') {
    const limits = externalMajor(thread.value);
    return { json: written(limits), reading: { ...limits, fit: thread.value.designation, unproven: false } };
  }
  if (thread !== null && thread.ok && field.name === 'drill') {
    const drill = nearestDrill(
      tapHole(thread.value, 75),
      thread.value.form === 'metric' ? ['metric'] : ['number', 'letter', 'fraction'],
    );
    if (drill !== null)
      return {
        json: writeLength(drill.diameter),
        reading: { low: drill.diameter, high: drill.diameter, fit: drill.name, unproven: false },
      };
  }
  if (field.type === 'choice') return { json: field.choices?.[0] ?? '', reading: null };
  if (field.type === 'sizes' && field.name === 'feeds') return { json: [], reading: null };
  // A thread's own sizes wait for its designation, which is asked for in its own field.
  const waits = field.name === 'major' || field.name === 'drill';
  if (field.needed || waits)
    return {
      says:
        waits || field.type === 'line' || field.type === 'thread'
          ? waits
            ? 'the thread gives it, once it reads'
            : 'wanted'
          : draft.unit === 'inch'
            ? 'a size is wanted: .627, 1 5/16'
            : 'a size is wanted: 15.94, 25h6',
    };
  return { json: null, reading: null };
}

function readField(field: DraftField, row: DraftRow | null, text: string, scene: Scene): Read {
  const { draft, ids } = scene;
  if (text === '') return emptyField(field, row, scene);
  switch (field.type) {
    case 'line':
    case 'choice':
      return { json: text, reading: null };
    case 'thread': {
      const thread = parseThread(text);
      return thread.ok ? { json: text, reading: null } : { says: `“${text}” is no thread: write 5/16-18, M8x1.25` };
    }
    case 'size': {
      const read = parseLength(text, draft.unit);
      return read.ok
        ? { json: writeLength(read.value), reading: { low: read.value, high: read.value, fit: null, unproven: false } }
        : { says: describeLengthError(read.error) };
    }
    case 'limits': {
      const read = readWrittenLimits(text, draft.unit, scene.general, mateFor(row, field, scene.mates));
      return read.ok ? { json: written(read.value), reading: read.value } : { says: describeLimitsFault(read.error) };
    }
    case 'sizes': {
      const read = sizesIn(text, draft.unit);
      return 'sizes' in read ? { json: read.sizes.map(writeLength), reading: null } : read;
    }
    case 'numbers': {
      const numbers = several(text).map(Number);
      return numbers.every((each) => Number.isFinite(each) && each > 0)
        ? { json: numbers, reading: null }
        : { says: 'numbers, one after the other: 70 150 280' };
    }
    case 'bore':
    case 'width':
    case 'turned': {
      const id = ids.of.get(text);
      return id === undefined ? { says: 'it is no longer there: choose again' } : { json: id, reading: null };
    }
  }
}

type ReadRow = {
  readonly json: { [key: string]: Json };
  readonly sizes: Record<string, FieldReading>;
  readonly problems: DraftProblem[];
};

function readRow(row: DraftRow, group: DraftGroup, scene: Scene): ReadRow {
  const kind = draftKind(row.kind);
  const json: { [key: string]: Json } = { kind: row.kind, id: scene.ids.of.get(row.id) ?? row.id };
  const sizes: Record<string, FieldReading> = {};
  const problems: DraftProblem[] = [];
  if (kind === null)
    return { json, sizes, problems: [{ group, row: row.id, field: null, says: `this version knows no “${row.kind}”` }] };
  for (const field of kind.fields) {
    const read = readField(field, row, typedIn(row.values, field.name), scene);
    if ('says' in read) problems.push({ group, row: row.id, field: field.name, says: read.says });
    else {
      if (read.reading !== null) sizes[field.name] = read.reading;
      if (read.json !== null || field.absent !== 'left-out') json[field.name] = read.json;
    }
  }
  return { json, sizes, problems };
}

/** A mate in the form of the part: its size as measured, once it is. */
function mateJson(json: { [key: string]: Json }, row: DraftRow, mates: Scene['mates']): Json {
  const known = mates.get(row.id);
  const { kind, id, name } = json;
  return {
    kind: kind ?? null,
    id: id ?? null,
    name: name ?? null,
    say: name ?? null,
    nominal: known === undefined ? (json['nominal'] ?? null) : writeLength(known.size),
  };
}

function machineJson(json: { [key: string]: Json }): Json {
  const { id, name, crossDivision, crossTurn, reads, carriageDivision, carriageTurn, spindleSpeeds, feeds } = json;
  const carriage =
    carriageDivision === null || carriageTurn === null
      ? null
      : { division: carriageDivision ?? null, perTurn: carriageTurn ?? null };
  return {
    id: id ?? null,
    name: name ?? null,
    crossSlide: { division: crossDivision ?? null, perTurn: crossTurn ?? null, reads: reads ?? null },
    carriage,
    spindleSpeeds: spindleSpeeds ?? [],
    feeds: feeds ?? [],
  };
}

/** Where in the draft a path of the part's schema leads. */
function placeOf(path: readonly PropertyKey[], draft: Draft): DraftPlace {
  const [first, second, third] = path;
  const group = DRAFT_GROUPS.find((each) => each === first);
  if (group === undefined || typeof second !== 'number') {
    const field = first === 'stock' ? second : first;
    return { group: 'about', row: null, field: typeof field === 'string' ? field : null };
  }
  const field = typeof third === 'string' ? third : null;
  return { group, row: draft[group][second]?.id ?? null, field: field === 'id' || field === 'say' ? 'name' : field };
}

/** Reads a draft: the part and its machines where all of it reads, else everything that is wrong, each with its place. Pure. */
export function readDraft(draft: Draft): DraftReading {
  const scene: Scene = { draft, mates: knownMates(draft), ids: idsOf(draft), general: generalOf(draft) };
  const problems: DraftProblem[] = [];
  const about: { [key: string]: Json } = {};
  for (const field of ABOUT_FIELDS) {
    const read = readField(field, null, typedIn(draft.about, field.name), scene);
    if ('says' in read) problems.push({ group: 'about', row: null, field: field.name, says: read.says });
    else about[field.name] = read.json;
  }
  const rows = new Map(DRAFT_GROUPS.map((group) => [group, draft[group].map((row) => readRow(row, group, scene))]));
  for (const read of rows.values()) problems.push(...read.flatMap((row) => row.problems));
  const sketch = draft.turned.map((row, at) => ({
    id: row.id,
    kind: row.kind,
    name: typedIn(row.values, 'name'),
    sizes: rows.get('turned')?.[at]?.sizes ?? {},
  }));
  const json = (group: DraftGroup): { [key: string]: Json }[] => (rows.get(group) ?? []).map((row) => row.json);
  if (draft.turned.length === 0)
    problems.push({
      group: 'turned',
      row: null,
      field: null,
      says: 'nothing is turned yet: add the first feature from the left',
    });
  if (draft.machines.length === 0) problems.push({ group: 'machines', row: null, field: null, says: 'a lathe is wanted' });
  if (problems.length > 0) return { part: null, machines: null, problems, sketch, mates: scene.mates, ids: scene.ids };

  const { name, form, size, length, material } = about;
  const read = partSchema.safeParse({
    id: scene.ids.part,
    name,
    unit: draft.unit,
    stock: { form, size, length, material },
    mates: json('mates').map((mate, at) => mateJson(mate, draft.mates[at] as DraftRow, scene.mates)),
    turned: json('turned'),
    ends: json('ends'),
    milled: json('milled'),
  });
  const machines: Machine[] = [];
  json('machines').forEach((machine, at) => {
    const one = machineSchema.safeParse(machineJson(machine));
    if (one.success) machines.push(one.data);
    else
      problems.push(
        ...one.error.issues.map((issue) => ({
          group: 'machines' as const,
          row: draft.machines[at]?.id ?? null,
          field: null,
          says: issue.message,
        })),
      );
  });
  if (!read.success) problems.push(...read.error.issues.map((issue) => ({ ...placeOf(issue.path, draft), says: issue.message })));
  const whole = problems.length === 0 && read.success;
  return {
    part: whole ? read.data : null,
    machines: whole ? machines : null,
    problems,
    sketch,
    mates: scene.mates,
    ids: scene.ids,
  };
}
