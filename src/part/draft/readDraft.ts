import {
  instrumentsOf,
  larger,
  millimetres,
  parseLength,
  smaller,
  thou,
  writeLength,
  zero,
  type DisplayUnit,
  type Instruments,
  type Length,
  type OwnInstrument,
} from '../../measure/index.ts';
import { externalMajor, nearestDrill, parseThread, tapHole, type SizeLimits } from '../../trade/index.ts';
import { machineSchema, type Machine } from '../machine.ts';
import { partSchema, type Part } from '../part.ts';
import { DRAFT_GROUPS, typedIn, type Draft, type DraftGroup, type DraftRow } from './draft.ts';
import { saidName } from '../saidName.ts';
import { draftLengths } from './draftLengths.ts';
import { ABOUT_FIELDS, draftKind, type DraftField } from './kinds.ts';
import { idsOf, type DraftIds } from './draftIds.ts';
import { ownInstrumentsIn } from './readInstruments.ts';
import { chucksIn, instrumentOf, numbersIn, readingsIn, sizesIn, wordsIn, type Json } from './fieldTexts.ts';
import { describeLengthError, describeLimitsFault, readWrittenLimits, type KnownMate } from './writtenLimits.ts';

/**
 * Where something is wrong: a field of a row (of an instrument, its kind), or of the draft itself where `row` is null. `field`
 * null: the row as a whole.
 */
export type DraftPlace = {
  readonly group: DraftGroup | 'about' | 'instruments';
  readonly row: string | null;
  readonly field: string | null;
};
export type DraftProblem = DraftPlace & { readonly says: string };

/** What a field was read as, to be shown beside it. */
export type FieldReading = {
  readonly low: Length;
  readonly high: Length;
  readonly fit: string | null;
  readonly unproven: boolean;
};

/** A row of the part as far as it reads, for the drawing. `values` holds what was chosen or typed, other rows by their ids. */
export type SketchFeature = {
  readonly id: string;
  readonly group: Exclude<DraftGroup, 'mates' | 'machines'>;
  readonly kind: string;
  readonly name: string;
  readonly sizes: Readonly<Record<string, FieldReading>>;
  readonly values: Readonly<Record<string, string>>;
};

const DRAWN = ['turned', 'edges', 'ends', 'milled'] as const;

/**
 * What a draft amounts to. `part` and `machines` are null while anything keeps them from being read; then `problems` says what
 * and where. `sketch` holds every row of the part, however little of it reads; `ids` leads from the ids of the part back to the
 * rows.
 */
export type DraftReading = {
  readonly part: Part | null;
  readonly machines: readonly Machine[] | null;
  /** Those that are not as the standard says, as far as they read. */
  readonly instruments: readonly OwnInstrument[];
  readonly problems: readonly DraftProblem[];
  readonly sketch: readonly SketchFeature[];
  readonly mates: ReadonlyMap<string, KnownMate>;
  readonly ids: DraftIds;
};

type Read = { readonly json: Json; readonly reading: FieldReading | null } | { readonly says: string };

/** What a size without limits may be off, where its field does not read: three places in inches, common practice, no source. */
const generalOf = (draft: Draft): Length => {
  const read = parseLength(typedIn(draft.about, 'general'), draft.unit);
  return read.ok ? read.value : draft.unit === 'inch' ? thou(5) : millimetres(0.1);
};

/** The mates that a size can be fitted to: what they measure, else what they are called to be. */
function knownMates(draft: Draft, instruments: Instruments): ReadonlyMap<string, KnownMate> {
  const known = new Map<string, KnownMate>();
  for (const row of draft.mates) {
    const nominal = parseLength(typedIn(row.values, 'nominal'), draft.unit);
    const read = readingsIn(typedIn(row.values, 'readings'), draft.unit, instrumentOf(row));
    const readings = 'readings' in read ? read.readings : [];
    if (!nominal.ok && readings.length === 0) continue;
    const ring = row.kind === 'bearing' ? 'inner' : row.kind === 'outer-ring' ? 'outer' : null;
    const holds = row.kind === 'width' ? 'length' : row.kind === 'shaft' || ring === 'outer' ? 'hole' : 'shaft';
    const worst = readings
      .map((reading) => reading.value)
      .reduce<Length | null>((so, each) => (so === null ? each : (holds === 'shaft' ? smaller : larger)(so, each)), null);
    const size = worst ?? (nominal.ok ? nominal.value : zero);
    // Before it is measured its size is taken as true: the route has it measured, and the window moves with it.
    const uncertainty = worst === null ? zero : instruments[instrumentOf(row)].permissibleError(size);
    const measured = worst === null ? null : { size, uncertainty };
    known.set(row.id, { size, nominal: nominal.ok ? nominal.value : size, uncertainty, holds, ring, measured });
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

const refused = (says: string): Read => ({ says });
const taken = (json: Json): Read => ({ json, reading: null });

/** What an empty field is: what the thread gives, the first choice, nothing, or a refusal. */
function emptyField(field: DraftField, row: DraftRow | null, { draft }: Scene): Read {
  const thread = row === null ? null : parseThread(typedIn(row.values, 'designation'));
  if (thread !== null && field.name === 'major') {
    // Its own field says what is wrong with the thread.
    if (!thread.ok) return taken(null);
    const limits = externalMajor(thread.value);
    return { json: written(limits), reading: { ...limits, fit: thread.value.designation, unproven: false } };
  }
  if (thread !== null && field.name === 'drill') {
    if (!thread.ok) return taken(null);
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
  if (!field.needed) return taken(null);
  switch (field.type) {
    case 'choice':
      return taken(field.choices?.[0] ?? null);
    case 'line':
    case 'number':
    case 'numbers':
    case 'words':
    case 'chucks':
    case 'readings':
    case 'mate':
    case 'shaft':
    case 'width':
    case 'turned':
    case 'timing':
      return refused('this is wanted');
    case 'thread':
      return refused('a thread is wanted: 5/16-18, M8x1.25');
    case 'limits':
      return refused(draft.unit === 'inch' ? 'a size is wanted: .627, 1 5/16' : 'a size is wanted: 15.94, 25h6');
    case 'size':
    case 'sizes':
      return refused(wantedSize(field.name, draft.unit));
  }
}

/** What is wanted of an empty size, with an example: of a dial, what its division or turn stands for. */
function wantedSize(field: string, unit: DisplayUnit): string {
  const inch = unit === 'inch';
  if (field.endsWith('Division')) return `what one division of the dial stands for: ${inch ? '.001' : '0.02'}`;
  if (field.endsWith('Turn')) return `what one turn of the dial stands for: ${inch ? '.100' : '4'}`;
  return `a size is wanted: ${inch ? '.627, 1 5/16' : '15.94'}`;
}

function readField(field: DraftField, row: DraftRow | null, text: string, scene: Scene): Read {
  const { draft, ids } = scene;
  if (text === '') return emptyField(field, row, scene);
  switch (field.type) {
    case 'line':
    case 'choice':
      return taken(text);
    case 'words': {
      const read = wordsIn(text, field.choices ?? []);
      return 'says' in read ? read : taken([...read.words]);
    }
    case 'number':
      return Number.isFinite(Number(text)) ? taken(Number(text)) : refused(`“${text}” is not a number`);
    case 'thread':
      return parseThread(text).ok ? taken(text) : refused(`“${text}” is no thread: write 5/16-18, M8x1.25`);
    case 'size': {
      const read = parseLength(text, draft.unit);
      if (!read.ok) return refused(describeLengthError(read.error));
      return { json: writeLength(read.value), reading: { low: read.value, high: read.value, fit: null, unproven: false } };
    }
    case 'limits': {
      const read = readWrittenLimits(text, draft.unit, scene.general, mateFor(row, field, scene.mates));
      return read.ok ? { json: written(read.value), reading: read.value } : refused(describeLimitsFault(read.error));
    }
    case 'sizes': {
      const read = sizesIn(text, draft.unit);
      return 'says' in read ? read : taken(read.sizes.map(writeLength));
    }
    case 'numbers': {
      const read = numbersIn(text);
      return 'says' in read ? read : taken([...read.numbers]);
    }
    case 'readings': {
      const read = readingsIn(text, draft.unit, row === null ? 'micrometer' : instrumentOf(row));
      return 'says' in read ? read : taken(read.readings.map((reading) => ({ ...reading, value: writeLength(reading.value) })));
    }
    case 'chucks': {
      const read = chucksIn(text, draft.unit);
      return 'says' in read ? read : taken([...read.chucks]);
    }
    case 'mate':
    case 'shaft':
    case 'width':
    case 'turned':
    case 'timing': {
      const id = ids.of.get(text);
      return id === undefined ? refused('it is no longer there: choose again') : taken(id);
    }
  }
}

/** What stands beside a length that was typed from a face, and is read as what lies between the ends of its feature. */
const OWN_LENGTH = 'between its ends';

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
      if (read.json !== null || field.empty === 'null') json[field.name] = read.json;
    }
  }
  return { json, sizes, problems };
}

/** A mate in the form of the part: called by its name as it is said, with its readings. */
function mateJson({ instrument: _, ...json }: { [key: string]: Json }): Json {
  return { ...json, say: typeof json['name'] === 'string' ? saidName(json['name']) : null };
}

/**
 * A turned feature in the form of the part: a fit that stands alone is kept as the fit it is, so that the size follows its mate
 * when that is measured again.
 */
function turnedJson(json: { [key: string]: Json }, row: DraftRow, sizes: Readonly<Record<string, FieldReading>>): Json {
  const diameter = sizes['diameter'];
  const alone = /^([a-z]+(\d{1,2}|\s+fit)?|[A-Z]{1,2}\d{1,2})$/.test(typedIn(row.values, 'diameter'));
  if (diameter === undefined || diameter.fit === null || diameter.unproven || !alone || json['mate'] === undefined) return json;
  return { ...json, fit: diameter.fit };
}

function machineJson({
  kind: _,
  crossDivision,
  crossTurn,
  reads,
  carriageDivision,
  carriageTurn,
  taperLength,
  taperPerFoot,
  ...rest
}: {
  [key: string]: Json;
}): Json {
  const [division, perTurn] = [carriageDivision ?? null, carriageTurn ?? null];
  const [longest, steepest] = [taperLength ?? null, taperPerFoot ?? null];
  return {
    ...rest,
    crossSlide: { division: crossDivision ?? null, perTurn: crossTurn ?? null, reads: reads ?? null },
    taperAttachment: longest === null || steepest === null ? null : { length: longest, mostPerFoot: steepest },
    carriage: division === null || perTurn === null ? null : { division, perTurn },
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
  const { own: instruments, problems: figures } = ownInstrumentsIn(draft);
  const scene: Scene = {
    draft,
    mates: knownMates(draft, instrumentsOf(instruments)),
    ids: idsOf(draft),
    general: generalOf(draft),
  };
  const problems: DraftProblem[] = figures.map(({ kind, figure, says }) => ({
    group: 'instruments',
    row: kind,
    field: figure,
    says,
  }));
  const about: { [key: string]: Json } = {};
  for (const field of ABOUT_FIELDS) {
    const read = readField(field, null, typedIn(draft.about, field.name), scene);
    if ('says' in read) problems.push({ group: 'about', row: null, field: field.name, says: read.says });
    else about[field.name] = read.json;
  }
  const rows = new Map(DRAFT_GROUPS.map((group) => [group, draft[group].map((row) => readRow(row, group, scene))]));
  for (const read of rows.values()) problems.push(...read.flatMap((row) => row.problems));
  const lengths = draftLengths(
    draft,
    (rows.get('turned') ?? []).map(({ sizes: { length } }) => length ?? null),
  );
  // A length from a face is drawn as what it leaves between the ends of its feature.
  lengths?.of.forEach(({ own, datum }, at) => {
    const row = rows.get('turned')?.[at];
    if (row === undefined) return;
    row.json['length'] = written(own);
    row.json['datum'] = datum;
    if (datum !== null) row.sizes['length'] = { ...own, fit: OWN_LENGTH, unproven: false };
  });
  if (lengths?.fault != null)
    problems.push({ group: 'turned', row: lengths.fault.row, field: 'datum', says: lengths.fault.says });
  const sketch = DRAWN.flatMap((group) =>
    draft[group].map(({ id, kind, values }, at): SketchFeature => {
      const sizes = rows.get(group)?.[at]?.sizes ?? {};
      return { id, group, kind, name: typedIn(values, 'name'), sizes, values };
    }),
  );
  const json = (group: DraftGroup): { [key: string]: Json }[] => (rows.get(group) ?? []).map((row) => row.json);
  if (draft.turned.length === 0)
    problems.push({
      group: 'turned',
      row: null,
      field: null,
      says: 'nothing is turned yet: add the first feature from the left',
    });
  if (draft.machines.length === 0) problems.push({ group: 'machines', row: null, field: null, says: 'a lathe is wanted' });
  if (problems.length > 0)
    return { part: null, machines: null, instruments, problems, sketch, mates: scene.mates, ids: scene.ids };

  const { name, form, size, length, material, condition } = about;
  const read = partSchema.safeParse({
    id: scene.ids.part,
    name,
    unit: draft.unit,
    stock: { form, size, length, material, condition },
    mates: json('mates').map(mateJson),
    turned: draft.turned.map((row, at) =>
      turnedJson(rows.get('turned')?.[at]?.json ?? {}, row, rows.get('turned')?.[at]?.sizes ?? {}),
    ),
    edges: json('edges'),
    ends: draft.ends.map((row, at) => turnedJson(rows.get('ends')?.[at]?.json ?? {}, row, rows.get('ends')?.[at]?.sizes ?? {})),
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
    instruments,
    problems,
    sketch,
    mates: scene.mates,
    ids: scene.ids,
  };
}
