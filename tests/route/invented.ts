import { millimetres, inches, plus, minus, type Length } from '../../src/measure/index.ts';
import { machineSchema, ownLengths, partSchema, type Datum, type Limits, type Machine, type Part } from '../../src/part/index.ts';
import type { ToolMaterial } from '../../src/trade/index.ts';

/** A part in the notation of parts.json. */
export type Invented = {
  readonly id: string;
  readonly unit: 'inch' | 'millimetre';
  readonly tool?: ToolMaterial;
  readonly stock: string;
  readonly form?: Part['stock']['form'];
  readonly condition?: Part['stock']['condition'];
  readonly turned: string;
  readonly edges?: string;
  readonly ends?: string;
  readonly milled?: string;
  /** Readings of mates by id: `value place across instrument; …`. */
  readonly readings?: Readonly<Record<string, string>>;
  /** What the lathe has and what it has not, beside what every invented lathe has. */
  readonly lathe?: Readonly<Record<string, unknown>>;
  readonly faults?: readonly string[];
};

/** A lathe and a mill that do not exist, the lathe with an outfit of its own. */
export const machinesOf = ({ lathe = {} }: Pick<Invented, 'lathe'>): readonly Machine[] =>
  [
    { id: 'lathe', name: 'Engine lathe (invented)', reads: 'radius', speeds: [70, 105, 150, 220, 280, 340, 430, 560, 750, 1100] },
    { id: 'mill', name: 'Knee mill (invented)', reads: 'radius', speeds: [90, 150, 240, 400, 650, 1050, 1700, 2600] },
  ].map(({ id, name, reads, speeds }) =>
    machineSchema.parse({
      id,
      name,
      crossSlide: { division: '0.001in', perTurn: '0.1in', reads },
      carriage: { division: '0.01in', perTurn: '0.8in' },
      spindleSpeeds: speeds,
      ...(id === 'lathe' ? lathe : {}),
    }),
  );

export const MACHINES: readonly Machine[] = machinesOf({});

/** The members of a list in the notation, with their place from 1. */
const members = (text: string): readonly (readonly [string, number])[] =>
  text === '' ? [] : text.split(';').map((line, index) => [line.trim(), index + 1] as const);

/**
 * The part that the notation stands for; features are called on1, on2 … from the left, edges edge1 …, ends end1 …, milled cut1
 * ….
 */
export function inventedPart(invented: Invented): Part {
  const {
    id,
    unit,
    stock,
    turned,
    edges = '',
    ends = '',
    milled = '',
    form = 'round',
    condition = null,
    readings = {},
  } = invented;
  const suffix = unit === 'inch' ? 'in' : 'mm';
  const as = (value: number): Length => (unit === 'inch' ? inches(value) : millimetres(value));
  const text = (length: Length): string => `${length / 1_000_000}mm`;
  const within = (word: string): Limits => {
    const [middle = 0, half = 0] = word.split('~').map(Number);
    return { low: minus(as(middle), as(half)), high: plus(as(middle), as(half)) };
  };
  const written = ({ low, high }: Limits): { low: string; high: string } => ({ low: text(low), high: text(high) });
  const limits = (word: string): { low: string; high: string } => written(within(word));
  const mates: { readonly id: string; readonly [field: string]: unknown }[] = [];
  const mate = (kind: string, size: string, of: string, more: Readonly<Record<string, string>> = {}): string => {
    const name = `${kind.replace('-', ' ')} of ${of}`;
    const read = members(readings[`${kind}-${of}`] ?? '').map(([line]) => {
      const [value = '', place, across, instrument] = line.split(' ');
      return { value: `${value}${suffix}`, place, across, instrument };
    });
    mates.push({ id: `${kind}-${of}`, kind, name, say: name, nominal: `${size}${suffix}`, readings: read, ...more });
    return `${kind}-${of}`;
  };
  // `face:left` gives the length from there: all that lies between, with the spread of the feature's own.
  const lines = turned.split(';').map((line) => line.trim().split(' '));
  const plain = lines.map(([kind, ...words]) => within(words[kind === 'thread' ? 2 : 1] ?? ''));
  const middles = plain.map(({ low, high }) => (low + high) / 2);
  const linked = lines.map((words, index) => {
    const named = words.find((word) => word.startsWith('face:') || word.startsWith('shoulder:'));
    const { low, high } = plain[index] ?? { low: as(0), high: as(0) };
    if (named === undefined) return { length: { low, high }, datum: null };
    const [what = '', side = ''] = named.split(':');
    const between = side === 'left' ? middles.slice(0, index) : middles.slice(index + 1);
    const by = (what === 'face' ? between.reduce((sum, each) => sum + each, 0) : 0) as Length;
    return { length: null, datum: { from: `${side}-${what}` as Datum, length: { low: plus(low, by), high: plus(high, by) } } };
  });
  const lengths = ownLengths(linked);
  const own = (index: number): { low: string; high: string } =>
    written((lengths.ok ? lengths.value[index] : plain[index]) ?? { low: as(0), high: as(0) });
  const datums = linked.map(({ datum }) => (datum === null ? null : { from: datum.from, length: written(datum.length) }));
  const features = turned.split(';').map((line, index) => {
    const [kind = '', ...words] = line.trim().split(' ');
    const feature = `on${index + 1}`;
    const base = { id: feature, name: `${kind} ${index + 1}` };
    if (kind === 'thread') return { kind, ...base, designation: words[0], major: limits(words[1] ?? ''), length: own(index) };
    const [across = '', , ...rest] = words;
    const after = (name: string): string | null => rest.find((word) => word.startsWith(`${name}:`))?.split(':')[1] ?? null;
    const [bore, bearing, width, offset] = [after('bore'), after('bearing'), after('width'), after('throw')];
    const outer = after('outer');
    const hub = {
      ...(outer === null ? {} : { outer: `${outer}${suffix}` }),
      ...(after('of') === null ? {} : { material: (after('of') ?? '').replace('_', ' ') }),
    };
    const finish = rest.find((word) => word === 'filed' || word === 'polished') ?? 'turned';
    const shape = {
      ...base,
      diameter: limits(across),
      length: own(index),
      finish,
      roughness: after('ra') === null ? null : Number(after('ra')),
      between: width === null ? null : mate('width', width, feature),
      datum: datums[index] ?? null,
    };
    if (kind === 'collar') return { kind, ...shape };
    if (kind === 'groove') return { kind, ...shape, form: rest.includes('round') ? 'round' : 'square' };
    if (kind === 'taper') return { kind, ...shape, small: `${after('small') ?? ''}${suffix}`, smallEnd: after('to') };
    const fitted = {
      ...shape,
      fit: after('fit'),
      mate: bore !== null ? mate('bore', bore, feature, hub) : bearing !== null ? mate('bearing', bearing, feature) : null,
    };
    return kind === 'offset'
      ? { kind: 'offset-journal', ...fitted, throw: `${offset}${suffix}`, direction: Number(after('direction') ?? 0) }
      : { kind, ...fitted };
  });
  const [size, long, ...material] = stock.split(' ');
  const inEnds = members(ends).map(([line, place]) => {
    const [end, what = '', ...words] = line.split(' ');
    const [shaft, ring, fit, ra] = ['shaft', 'ring', 'fit', 'ra'].map((name) =>
      words.find((word) => word.startsWith(`${name}:`))?.slice(name.length + 1),
    );
    const numbers = words.filter((word) => !word.includes(':'));
    const base = { id: `end${place}`, end };
    const [a, b, c, d] = numbers.map((number) => `${number}${suffix}`);
    if (what === 'centre') return { kind: 'centre', ...base, name: `Centre ${place}` };
    if (what === 'drilled') return { kind: 'drilled-hole', ...base, name: `Hole ${place}`, drill: a, drillDepth: b };
    if (what === 'bored')
      return {
        kind: 'bored-hole',
        ...base,
        name: `Bore ${place}`,
        diameter: limits(numbers[0] ?? ''),
        depth: limits(numbers[1] ?? ''),
        drill: c,
        drillDepth: d,
        ...(shaft === undefined ? {} : { mate: mate('shaft', shaft, base.id) }),
        ...(ring === undefined ? {} : { mate: mate('outer-ring', ring, base.id), fit: fit ?? null }),
        roughness: ra === undefined ? null : Number(ra),
      };
    return {
      kind: 'tapped-hole',
      ...base,
      name: `Thread ${place}`,
      designation: what,
      drill: a,
      drillDepth: b,
      threadDepth: c,
    };
  });
  return partSchema.parse({
    id,
    name: `${id} (invented)`,
    unit,
    stock: { form, size: `${size}${suffix}`, length: `${long}${suffix}`, material: material.join(' '), condition },
    mates,
    turned: features,
    edges: members(edges).map(([line, place]) => {
      const [kind, values = ''] = line.split(':');
      const [on, at, first, second] = values.split(',');
      const base = { kind, id: `edge${place}`, name: `${kind} ${place}`, on, at };
      if (kind === 'fillet') return { ...base, radius: `${first}${suffix}` };
      if (kind === 'undercut') return { ...base, width: `${first}${suffix}`, depth: `${second}${suffix}` };
      return { ...base, size: `${first}${suffix}`, ...(second === undefined ? {} : { degrees: Number(second) }) };
    }),
    ends: inEnds,
    milled: members(milled).map(([line, place]) => {
      const [shape = '', ...words] = line.split(' ');
      const [kind = '', values = ''] = shape.split(':');
      const [on, ...numbers] = values.split(',');
      const [a, b, c] = numbers.map((number) => `${number}${suffix}`);
      const word = (name: string): string | null => words.find((one) => one.startsWith(`${name}:`))?.split(':')[1] ?? null;
      const along = word('along');
      const base = {
        id: `cut${place}`,
        name: `${kind} ${place}`,
        on,
        timedTo: word('to'),
        angle: Number(word('angle') ?? 0),
        along: along === null ? null : `${along}${suffix}`,
      };
      if (kind === 'pocket') return { kind: 'pin-pocket', ...base, diameter: a, depth: b, timedTo: numbers[2] ?? base.timedTo };
      if (kind === 'hole') return { kind: 'cross-hole', ...base, diameter: a, depth: b ?? null };
      if (kind === 'box')
        return {
          kind: 'pocket',
          ...base,
          width: a,
          depth: b,
          length: c,
          roughness: word('ra') === null ? null : Number(word('ra')),
        };
      const rough = { roughness: word('ra') === null ? null : Number(word('ra')) };
      return kind === 'flat'
        ? { kind, ...base, depth: a, length: b, ...rough }
        : { kind, ...base, width: a, depth: b, length: c, ...rough };
    }),
  });
}
