import { millimetres, inches, plus, minus, type Length } from '../../src/measure/index.ts';
import { machineSchema, partSchema, type Machine, type Part } from '../../src/part/index.ts';
import type { ToolMaterial } from '../../src/trade/index.ts';

/** A part in the notation of parts.json. */
export type Invented = {
  readonly id: string;
  readonly unit: 'inch' | 'millimetre';
  readonly tool?: ToolMaterial;
  readonly stock: string;
  readonly turned: string;
  readonly ends?: string;
  readonly milled?: string;
  readonly faults?: readonly string[];
};

/** A lathe and a mill that do not exist. */
export const MACHINES: readonly Machine[] = [
  { id: 'lathe', name: 'Engine lathe (invented)', reads: 'radius', speeds: [70, 105, 150, 220, 280, 340, 430, 560, 750, 1100] },
  { id: 'mill', name: 'Knee mill (invented)', reads: 'radius', speeds: [90, 150, 240, 400, 650, 1050, 1700, 2600] },
].map(({ id, name, reads, speeds }) =>
  machineSchema.parse({
    id,
    name,
    crossSlide: { division: '0.001in', perTurn: '0.1in', reads },
    carriage: { division: '0.01in', perTurn: '0.8in' },
    spindleSpeeds: speeds,
  }),
);

/** The part that the notation stands for; features are called on1, on2 … from the left, ends end1 …, milled cut1 …. */
export function inventedPart({ id, unit, stock, turned, ends = '', milled = '' }: Invented): Part {
  const suffix = unit === 'inch' ? 'in' : 'mm';
  const as = (value: number): Length => (unit === 'inch' ? inches(value) : millimetres(value));
  const text = (length: Length): string => `${length / 1_000_000}mm`;
  const limits = (word: string): { low: string; high: string } => {
    const [middle = 0, half = 0] = word.split('~').map(Number);
    return { low: text(minus(as(middle), as(half))), high: text(plus(as(middle), as(half))) };
  };
  const mates: Record<string, string>[] = [];
  const mate = (kind: string, size: string, of: string): string => {
    const name = `${kind} of ${of}`;
    mates.push({ id: `${kind}-${of}`, kind, name, say: name, nominal: `${size}${suffix}` });
    return `${kind}-${of}`;
  };
  const features = turned.split(';').map((line, index) => {
    const [kind = '', ...words] = line.trim().split(' ');
    const feature = `on${index + 1}`;
    const base = { id: feature, name: `${kind} ${index + 1}` };
    if (kind === 'thread')
      return { kind, ...base, designation: words[0], major: limits(words[1] ?? ''), length: limits(words[2] ?? '') };
    const [across = '', length = '', ...rest] = words;
    const after = (name: string): string | null => rest.find((word) => word.startsWith(`${name}:`))?.split(':')[1] ?? null;
    const [bore, bearing, width, offset] = [after('bore'), after('bearing'), after('width'), after('throw')];
    const finish = rest.find((word) => word === 'filed' || word === 'polished') ?? 'turned';
    const shape = {
      ...base,
      diameter: limits(across),
      length: limits(length),
      finish,
      between: width === null ? null : mate('width', width, feature),
    };
    if (kind === 'collar') return { kind, ...shape };
    const fitted = {
      ...shape,
      mate: bore !== null ? mate('bore', bore, feature) : bearing !== null ? mate('bearing', bearing, feature) : null,
    };
    return kind === 'offset' ? { kind: 'offset-journal', ...fitted, throw: `${offset}${suffix}` } : { kind, ...fitted };
  });
  const [size, long, ...material] = stock.split(' ');
  return partSchema.parse({
    id,
    name: `${id} (invented)`,
    unit,
    stock: { form: 'round', size: `${size}${suffix}`, length: `${long}${suffix}`, material: material.join(' ') },
    mates,
    turned: features,
    ends:
      ends === ''
        ? []
        : ends.split(';').map((line, index) => {
            const [end, designation, drill, drillDepth, threadDepth] = line.trim().split(' ');
            const depths = {
              drill: `${drill}${suffix}`,
              drillDepth: `${drillDepth}${suffix}`,
              threadDepth: `${threadDepth}${suffix}`,
            };
            return { kind: 'tapped-hole', id: `end${index + 1}`, name: `Thread ${index + 1}`, end, designation, ...depths };
          }),
    milled:
      milled === ''
        ? []
        : milled.split(';').map((line, index) => {
            const [kind = '', values = ''] = line.trim().split(':');
            const [on, ...numbers] = values.split(',');
            const [a, b, c] = numbers.map((number) => `${number}${suffix}`);
            const base = { id: `cut${index + 1}`, name: `${kind} ${index + 1}`, on };
            if (kind === 'pocket') return { kind: 'pin-pocket', ...base, diameter: a, depth: b, timedTo: numbers[2] ?? null };
            return kind === 'flat' ? { kind, ...base, depth: a, length: b } : { kind, ...base, width: a, depth: b, length: c };
          }),
  });
}
