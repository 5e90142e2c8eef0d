import { asDiameter, formatSize, millimetres, nanometres, roundedTo, type Length } from '../../measure/index.ts';
import type { Chuck, Machine, Part } from '../../part/index.ts';
import { packingPiece } from '../../trade/index.ts';
import { acrossCorners, inSentenceOf, isDelicate, type Bar } from './layout.ts';

/** How the work is held in a set-up: the words, why, and what else would do. */
export type Grip = {
  readonly by: Chuck['kind'] | 'centres';
  readonly holding: string;
  readonly say: string;
  readonly why: readonly string[];
  readonly alternatives: readonly string[];
};

type Kind = Chuck['kind'];

/** True where the machine has such a chuck for a diameter. One whose chucks are not listed has three jaws and four. */
function has({ chucks }: Machine, kind: Kind, across: Length, through: Length): boolean {
  if (chucks.length === 0) return kind !== 'collet';
  return chucks.some(
    (chuck) =>
      chuck.kind === kind && across >= chuck.least && across <= chuck.most && (chuck.bore === null || through <= chuck.bore),
  );
}

const none = nanometres(0);

/** How the bar or the blank is held for the first end; null where no chuck takes it. */
export function barGrip({ unit, stock, ...rest }: Part, machine: Machine, offBar: boolean, supported: boolean): Grip | null {
  const part = { unit, stock, ...rest };
  const what = offBar ? 'bar' : 'blank';
  const tail = supported ? ', tailstock centre in the end' : '';
  const across = acrossCorners(part);
  const through = offBar && stock.length > stock.size ? stock.size : none;
  if (stock.form !== 'square' && has(machine, 'three-jaw', stock.size, offBar && machine.spindleBore === null ? none : through)) {
    const collet =
      stock.form === 'round' &&
      (stock.condition === 'ground' || stock.condition === 'cold-drawn') &&
      has(machine, 'collet', stock.size, none);
    return {
      by: 'three-jaw',
      holding: `Three-jaw chuck on the ${what}${tail}.`,
      say: 'three jaw',
      why: [
        stock.form === 'hexagon'
          ? 'Three jaws take a hexagon on every second flat.'
          : 'Three jaws are true enough: what is turned in this one holding runs true to itself, and the other end is set to it.',
      ],
      alternatives: collet ? [`A ${formatSize(stock.size, unit)} collet, which the bar fits as it comes.`] : [],
    };
  }
  if (has(machine, 'four-jaw', stock.form === 'square' ? stock.size : across, none))
    return {
      by: 'four-jaw',
      holding: `Four-jaw chuck on the ${what}, set near enough true${tail}.`,
      say: 'four jaw',
      why: [stock.form === 'square' ? 'Only four jaws hold a square.' : 'No three-jaw chuck here takes this bar.'],
      alternatives: [],
    };
  return null;
}

/** How finished work is held true for the second end; `through` is the largest that goes into the chuck behind the grip. */
export function trueGrip(part: Part, machine: Machine, bar: Bar, through: Length, supported: boolean): Grip | null {
  const name = inSentenceOf(bar);
  const tail = supported ? ', tailstock centre' : '';
  const spares = isDelicate(bar)
    ? `the ${name} is finished: copper shim under the jaws keeps it so`
    : `the ${name} has the room to spare a mark, and shim saves it even that`;
  if (has(machine, 'collet', bar.diameter, through))
    return {
      by: 'collet',
      holding: `Collet on the ${name}${tail}.`,
      say: 'collet',
      why: [`A collet of ${formatSize(bar.diameter, part.unit)} is here: it runs true and does not mark a finished ${name}.`],
      alternatives: has(machine, 'four-jaw', bar.diameter, through) ? ['Four-jaw chuck over copper shim, dialled true.'] : [],
    };
  if (has(machine, 'four-jaw', bar.diameter, through))
    return {
      by: 'four-jaw',
      holding: `Four-jaw chuck on the ${name} over copper shim, dialled true${tail}.`,
      say: 'four jaw',
      why: [`Four jaws can be set true to the first end; ${spares}.`],
      alternatives: [],
    };
  if (has(machine, 'three-jaw', bar.diameter, through))
    return {
      by: 'three-jaw',
      holding: `Three-jaw chuck on the ${name} over copper shim, shimmed under one jaw until it runs true${tail}.`,
      say: 'three jaw',
      why: ['No four-jaw chuck here takes it; shim under one jaw does what a fourth jaw would.'],
      alternatives: [],
    };
  return null;
}

/** The words of a packing piece, and its thickness: by the exact geometry of point contact, in metric work to the hundredth. */
function packed(bar: Bar, offset: Length, { unit }: Part): string {
  const exact = packingPiece(asDiameter(bar.diameter), offset);
  const made = unit === 'inch' ? exact : roundedTo(exact, millimetres(0.01), 'half-even');
  return `a packing piece of ${formatSize(made, unit)} under one jaw`;
}

/**
 * True where the three jaws of a chuck still hold with a packing piece: a throw under a quarter of the diameter. Common
 * practice.
 */
const packs = (bar: Bar, offset: Length): boolean => offset * 4 <= bar.diameter;

/** How finished work is held off centre for an offset journal; null where no chuck here does it. */
export function offsetGrip(part: Part, machine: Machine, bar: Bar, offset: Length, size: string): Grip | null {
  const name = inSentenceOf(bar);
  const three = has(machine, 'three-jaw', bar.diameter, none) && packs(bar, offset);
  if (has(machine, 'four-jaw', bar.diameter, none))
    return {
      by: 'four-jaw',
      holding: `Four-jaw chuck on the ${name} over copper shim, offset ${size}.`,
      say: 'Offset, four jaw',
      why: [`Two opposed jaws move it by half of what the indicator shows, so the throw can be set to the indicator.`],
      alternatives: three
        ? [`Three-jaw chuck with ${packed(bar, offset, part)}: quicker for a second piece, and only as good as the packing.`]
        : [],
    };
  if (three)
    return {
      by: 'three-jaw',
      holding: `Three-jaw chuck on the ${name} over copper shim, with ${packed(bar, offset, part)}.`,
      say: 'Offset, packed',
      why: [
        'No four-jaw chuck here takes it: t = 1.5e + √(r² − 0.75e²) − r gives the packing for the throw. Check it on the indicator.',
      ],
      alternatives: [],
    };
  return null;
}
