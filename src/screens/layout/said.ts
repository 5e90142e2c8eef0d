import type { DraftPlace, DraftProblem, DraftReading, FieldReading } from '../../part/index.ts';
import { describeRouteFault, type RouteFault } from '../../route/index.ts';

/** Everything that is said of a draft: what does not read, and what keeps a route from being made. */
export type Said = readonly DraftProblem[];

/** The field of a feature that a fault of the route is about; where none is named it is about the feature as a whole. */
const FIELDS: Readonly<Partial<Record<RouteFault['key'], string>>> = {
  'stock-too-thin': 'diameter',
  'neck-too-narrow': 'length',
  'neck-too-thin': 'diameter',
  'offset-blocked': 'throw',
  'taper-backwards': 'smallEnd',
  'taper-blocked': 'small',
  'taper-too-long': 'length',
  'too-short-to-turn': 'length',
  'bends-too-much': 'diameter',
  'hole-breaks-out': 'drill',
  'hole-too-deep': 'drillDepth',
  'holes-meet': 'drillDepth',
  'cuts-into-hole': 'depth',
  'bore-too-deep': 'depth',
  'no-pitch': 'designation',
};

/** The field of the stock that a fault of the route is about. */
const OF_STOCK: Readonly<Partial<Record<RouteFault['key'], string>>> = {
  'material-not-known': 'material',
  'stock-too-short': 'length',
  'bar-too-thick': 'size',
  'nothing-to-grip': 'length',
};

/** A fault of the route at the field that it is about. */
export function problemOf(fault: RouteFault, reading: DraftReading): DraftProblem {
  const { part } = reading;
  const says = part === null ? fault.key : describeRouteFault(fault, part);
  if (fault.key === 'no-lathe' || fault.key === 'no-mill' || fault.key === 'no-chuck' || fault.key === 'no-tool')
    return { group: 'machines', row: null, field: null, says };
  const feature = 'feature' in fault && typeof fault.feature === 'string' ? fault.feature : null;
  const row = feature === null ? undefined : reading.ids.row.get(feature);
  const found = reading.sketch.find((each) => each.id === row);
  if (row !== undefined && found !== undefined) {
    const field = FIELDS[fault.key] ?? null;
    return { group: found.group, row, field: field !== null && field in found.values ? field : null, says };
  }
  return { group: 'about', row: null, field: OF_STOCK[fault.key] ?? null, says };
}

const at = (place: DraftPlace, group: string, row: string | null, field: string | null): boolean =>
  place.group === group && place.row === row && place.field === field;

/** What is said at a field, or null. */
export const saysOf = (said: Said, group: string, row: string | null, field: string | null): string | null =>
  said.find((each) => at(each, group, row, field))?.says ?? null;

/** What a field was read as. */
export const readingOf = (reading: DraftReading, row: string, field: string): FieldReading | null =>
  reading.sketch.find((each) => each.id === row)?.sizes[field] ?? null;
