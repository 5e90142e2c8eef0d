import {
  formatFraction,
  formatInch,
  formatMillimetre,
  NM_PER_INCH,
  parseLength,
  writeLength,
  type DisplayUnit,
  type Length,
} from '../../measure/index.ts';
import type { Machine } from '../machine.ts';
import { machineSchema } from '../machine.ts';
import { partSchema, type Part } from '../part.ts';
import type { Draft, DraftRow } from './draft.ts';
import { draftKind } from './kinds.ts';

/** A size as it is typed in a unit, or with a unit of its own where the unit would not give it exactly. */
export function typedSize(length: Length, unit: DisplayUnit): string {
  const fraction = unit === 'inch' && length % NM_PER_INCH !== 0 ? formatFraction(length) : null;
  const short = fraction ?? (unit === 'inch' ? formatInch(length, 4) : formatMillimetre(length, 3));
  const read = parseLength(short, unit);
  return read.ok && read.value === length ? short : writeLength(length);
}

type Stored = Readonly<Record<string, unknown>>;

const isLimits = (value: unknown): value is { low: string; high: string } =>
  typeof value === 'object' && value !== null && 'low' in value && 'high' in value;

/** What a stored value is as typed text; lengths in files are text with a unit. */
function typed(value: unknown, unit: DisplayUnit, rowOf: (id: string) => string | undefined): string {
  const one = (text: string): string => {
    const read = /^-?[\d.\s/]+(in|mm)$/.test(text) ? parseLength(text, unit) : null;
    return read?.ok === true ? typedSize(read.value, unit) : (rowOf(text) ?? text);
  };
  if (value === null || value === undefined) return '';
  if (isLimits(value)) return value.low === value.high ? one(value.low) : `${one(value.low)} to ${one(value.high)}`;
  if (Array.isArray(value)) return value.map((each) => (typeof each === 'number' ? String(each) : one(String(each)))).join(' ');
  return typeof value === 'string' ? one(value) : '';
}

/** A part as a draft that reads back to it: to be changed, or made again. Ids come from the names. */
export function draftOfPart(part: Part, machines: readonly Machine[], id: string): Draft {
  const stored = partSchema.encode(part);
  const { unit } = part;
  let added = 0;
  const rowIds = new Map<string, string>();
  const numbered = <T extends { readonly id: string }>(members: readonly T[]): readonly T[] => {
    for (const member of members) rowIds.set(member.id, `r${(added += 1)}`);
    return members;
  };
  const groups = [stored.mates, stored.turned, stored.ends, stored.milled].map((group) =>
    numbered<{ readonly id: string; readonly kind: string }>(group),
  );
  const rowOf = (member: string): string | undefined => rowIds.get(member);
  const row = (member: Stored & { readonly id: string; readonly kind: string }): DraftRow => {
    const fields = draftKind(member.kind)?.fields ?? [];
    const values = Object.fromEntries(
      fields.map(({ name, type }) => [
        name,
        type === 'line' || type === 'thread' || type === 'choice' ? String(member[name] ?? '') : typed(member[name], unit, rowOf),
      ]),
    );
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
      },
    };
  };
  const [mates = [], turned = [], ends = [], milled = []] = groups.map((group) => group.map((member) => row({ ...member })));
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
      general: unit === 'inch' ? '.005' : '0.1',
    },
    mates,
    turned,
    ends,
    milled,
    machines: machineRows,
    added,
  };
}

/** An empty draft with the machines of an earlier one, or with a lathe that is still to be described. */
export function newDraft(id: string, unit: DisplayUnit, from: Draft | null): Draft {
  const lathe: DraftRow = { id: 'r1', kind: 'lathe', values: {} };
  return {
    format: 'swarfside-draft',
    version: 1,
    id,
    unit,
    tool: from?.tool ?? 'high-speed-steel',
    about: { form: 'round', general: unit === 'inch' ? '.005' : '0.1' },
    mates: [],
    turned: [],
    ends: [],
    milled: [],
    machines: from?.machines ?? [lathe],
    added: from?.added ?? 1,
  };
}
