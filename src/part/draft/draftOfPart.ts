import { parseLength, type DisplayUnit, type OwnInstrument } from '../../measure/index.ts';
import type { Machine } from '../machine.ts';
import { machineSchema } from '../machine.ts';
import { partSchema, type Part } from '../part.ts';
import type { Draft, DraftRow } from './draft.ts';
import { draftKind, type FieldType } from './kinds.ts';
import { typedSize } from './typedSize.ts';
import { inUnit } from './inUnit.ts';

type Stored = Readonly<Record<string, unknown>>;

const isLimits = (value: unknown): value is { low: string; high: string } =>
  typeof value === 'object' && value !== null && 'low' in value && 'high' in value;

const isDatumLength = (value: unknown): value is { from: string; length: unknown } =>
  typeof value === 'object' && value !== null && 'from' in value && 'length' in value;

/** What a stored value is as typed text; lengths in files are text with a unit. */
function typed(value: unknown, unit: DisplayUnit, rowOf: (id: string) => string | undefined): string {
  const one = (text: string): string => {
    const read = /^-?[\d.\s/]+(in|mm)$/.test(text) ? parseLength(text, unit) : null;
    return read?.ok === true ? typedSize(read.value, unit) : (rowOf(text) ?? text);
  };
  if (value === null || value === undefined) return '';
  if (isLimits(value)) return value.low === value.high ? one(value.low) : `${one(value.low)} to ${one(value.high)}`;
  if (typeof value === 'number') return String(value);
  if (Array.isArray(value)) return value.map((each) => (typeof each === 'number' ? String(each) : one(String(each)))).join(' ');
  return typeof value === 'string' ? one(value) : '';
}

/** Readings of a mate as they are typed, and the instrument of the first: one is all that a row holds. */
function readingTexts(
  readings: readonly { readonly value: string; readonly place?: string; readonly across?: string; readonly instrument: string }[],
  unit: DisplayUnit,
) {
  const texts = readings.map(({ value, place = 'middle', across }) =>
    [typed(value, unit, () => undefined), place === 'middle' ? '' : place, across === 'other-way' ? 'across' : '']
      .filter((word) => word !== '')
      .join(' '),
  );
  return { readings: texts.join(', '), instrument: readings[0]?.instrument ?? '' };
}

/** Chucks as they are typed. */
const chuckText = (
  chucks: readonly {
    readonly kind: string;
    readonly least: string;
    readonly most: string;
    readonly bore?: string | null | undefined;
  }[],
  size: (value: unknown) => string,
): string =>
  chucks
    .map(
      ({ kind, least, most, bore }) =>
        `${kind} ${size(least)} to ${size(most)}${bore === null || bore === undefined ? '' : ` bore ${size(bore)}`}`,
    )
    .join('; ');

/** A part as a draft that reads back to it: to be changed, or made again. Ids come from the names. */
export function draftOfPart(
  part: Part,
  machines: readonly Machine[],
  id: string,
  instruments: readonly OwnInstrument[] = [],
): Draft {
  const stored = partSchema.encode(part);
  const { unit } = part;
  let added = 0;
  const rowIds = new Map<string, string>();
  const numbered = <T extends { readonly id: string }>(members: readonly T[]): readonly T[] => {
    for (const member of members) rowIds.set(member.id, `r${(added += 1)}`);
    return members;
  };
  const groups = [stored.mates, stored.turned, stored.edges ?? [], stored.ends, stored.milled].map((group) =>
    numbered<{ readonly id: string; readonly kind: string }>(group),
  );
  const rowOf = (member: string): string | undefined => rowIds.get(member);
  const row = (member: Stored & { readonly id: string; readonly kind: string }): DraftRow => {
    const fields = draftKind(member.kind)?.fields ?? [];
    const asItIs = (type: FieldType): boolean => type === 'line' || type === 'thread' || type === 'choice' || type === 'words';
    const values = Object.fromEntries(
      fields.map(({ name, type }) => [
        name,
        asItIs(type) ? (typeof member[name] === 'string' ? member[name] : '') : typed(member[name], unit, rowOf),
      ]),
    );
    // A diameter that follows from its mate is typed as the fit that it is.
    if (typeof member['fit'] === 'string') values['diameter'] = member['fit'];
    // So is a length that names its datum: as it stands on the drawing.
    if (isDatumLength(member['datum'])) {
      values['length'] = typed(member['datum'].length, unit, rowOf);
      values['datum'] = member['datum'].from;
    }
    if (Array.isArray(member['readings']))
      Object.assign(values, readingTexts(member['readings'] as Parameters<typeof readingTexts>[0], unit));
    return { id: rowOf(member.id) ?? member.id, kind: member.kind, values };
  };
  const machineRow = (machine: Machine, at: number): DraftRow => {
    const file = machineSchema.encode(machine);
    const size = (value: unknown): string => typed(value, unit, () => undefined);
    return {
      id: `r${(added += 1)}`,
      kind: at === 0 ? 'lathe' : 'mill',
      values: {
        name: file.name,
        crossDivision: size(file.crossSlide.division),
        crossTurn: size(file.crossSlide.perTurn),
        reads: file.crossSlide.reads,
        carriageDivision: size(file.carriage?.division),
        carriageTurn: size(file.carriage?.perTurn),
        spindleSpeeds: size(file.spindleSpeeds),
        feeds: size(file.feeds),
        pitches: size(file.pitches),
        chucks: chuckText(file.chucks ?? [], size),
        spindleBore: size(file.spindleBore),
        betweenCentres: size(file.betweenCentres),
        compoundTravel: size(file.compoundTravel),
        taperLength: size(file.taperAttachment?.length),
        taperPerFoot: file.taperAttachment == null ? '' : String(file.taperAttachment.mostPerFoot),
        tailstockSetOver: size(file.tailstockSetOver),
        powerKw: size(file.powerKw),
        tools: (file.tools ?? []).join(' '),
      },
    };
  };
  const [mates = [], turned = [], edges = [], ends = [], milled = []] = groups.map((group) =>
    group.map((member) => row({ ...member })),
  );
  const machineRows = machines.map(machineRow);
  return {
    format: 'swarfside-draft',
    version: 1,
    id,
    unit,
    tool: 'high-speed-steel',
    about: {
      name: part.name,
      form: part.stock.form,
      size: typedSize(part.stock.size, unit),
      length: typedSize(part.stock.length, unit),
      material: part.stock.material,
      condition: part.stock.condition ?? '',
      general: unit === 'inch' ? '.005' : '0.1',
    },
    mates,
    turned,
    edges,
    ends,
    milled,
    machines: machineRows,
    instruments: instruments.map(({ kind, resolution, permissibleError }) => ({
      kind,
      resolution: resolution === null ? '' : typedSize(resolution, unit),
      permissibleError: permissibleError === null ? '' : typedSize(permissibleError, unit),
    })),
    edits: [],
    added,
  };
}

/** An empty draft with the machines and instruments of an earlier one, or with a lathe that is still to be described. */
export function newDraft(id: string, unit: DisplayUnit, from: Draft | null): Draft {
  const lathe: DraftRow = { id: 'r1', kind: 'lathe', values: {} };
  const empty: Draft = {
    format: 'swarfside-draft',
    version: 1,
    id,
    unit,
    tool: 'high-speed-steel',
    about: { form: 'round', general: unit === 'inch' ? '.005' : '0.1' },
    mates: [],
    turned: [],
    edges: [],
    ends: [],
    milled: [],
    machines: [lathe],
    instruments: [],
    edits: [],
    added: 1,
  };
  if (from === null) return empty;
  const { tool, machines, instruments, added } = inUnit(from, unit);
  return { ...empty, tool, machines, instruments, added };
}
