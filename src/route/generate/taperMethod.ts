import {
  asDiameter,
  formatAmount,
  formatSize,
  midway,
  minus,
  nanometres,
  plus,
  toRadians,
  zero,
  type Length,
} from '../../measure/index.ts';
import type { Machine, Part } from '../../part/index.ts';
import { bearsAt, centreHoleFor, compoundAngle, setOver, taperPerFoot, taperRatio, type Taper } from '../../trade/index.ts';
import { limitsOf, type Bar } from './layout.ts';

/** The three ways to turn a cone: by the compound, by a taper attachment, or with the tailstock set over between centres. */
export type TaperMethod = 'compound' | 'attachment' | 'set-over';

export const coneOf = ({ feature, diameter, length }: Bar): Taper | null =>
  feature.kind === 'taper' ? { large: asDiameter(diameter), small: feature.small, over: length } : null;

/** The work over its whole length, in the middle of its limits. */
export const workLength = (part: Part): Length =>
  part.turned.reduce<Length>((sum, { length }) => plus(sum, midway(length.low, length.high, 'half-even')), zero);

/** How far the compound travels along the slope of a cone. */
export const slopeOf = (cone: Taper): Length => nanometres(Math.ceil(cone.over / Math.cos(toRadians(compoundAngle(cone)))));

/** From where the one centre bears to where the other does: the work less how far in each of them is. */
export function betweenBearings(part: Part): Length {
  const inward = (feature: Part['turned'][number] | undefined): Length =>
    feature === undefined ? zero : bearsAt(centreHoleFor(feature.kind === 'taper' ? feature.small : limitsOf(feature).low));
  return minus(minus(workLength(part), inward(part.turned[0])), inward(part.turned.at(-1)));
}

/** How far the tailstock is set over for a cone on this work, reckoned where the centres bear. */
export const setOverOf = (part: Part, cone: Taper): Length => setOver(cone, betweenBearings(part), 'half-even');

/**
 * How a cone is turned on a machine: by the compound where its travel is enough or not known, else by the attachment, else by
 * setting the tailstock over, where the work is between centres; null where none of them reaches.
 */
export function taperMethod(part: Part, machine: Machine, cone: Taper, betweenCentres: boolean): TaperMethod | null {
  const { compoundTravel, taperAttachment, tailstockSetOver } = machine;
  if (compoundTravel === null || slopeOf(cone) <= compoundTravel) return 'compound';
  if (taperAttachment !== null && cone.over <= taperAttachment.length && taperPerFoot(cone) <= taperAttachment.mostPerFoot)
    return 'attachment';
  if (betweenCentres && tailstockSetOver !== null && setOverOf(part, cone) <= tailstockSetOver) return 'set-over';
  return null;
}

/** A taper as shops name it: per foot in inches, as a ratio in millimetres. */
export const taperText = (part: Part, cone: Taper): string =>
  part.unit === 'inch' ? `${taperPerFoot(cone).toFixed(4)} in a foot` : `1 in ${(1 / taperRatio(cone)).toFixed(3)}`;

/**
 * What an indicator on a straight bar shows over a length of travel, for trying an angle: along the axis with the carriage (the
 * tangent of half the angle), along the slope with the compound (its sine).
 */
export function perTravel(part: Part, cone: Taper, by: 'carriage' | 'compound'): string {
  const along = part.unit === 'inch' ? nanometres(25_400_000) : nanometres(25_000_000);
  const ratio = taperRatio(cone) / 2;
  const off = nanometres(Math.round(along * (by === 'carriage' ? ratio : Math.sin(Math.atan(ratio)))));
  return `${formatAmount(off, part.unit)} in ${formatSize(along, part.unit)} of ${by} travel`;
}

/** Each other way to turn the cone, with its numbers and its limits; what the machine does not say is said to be unknown. */
export function otherWays(part: Part, machine: Machine, cone: Taper, chosen: TaperMethod, degrees: string): string[] {
  const { unit } = part;
  const { compoundTravel, taperAttachment, tailstockSetOver } = machine;
  const over = setOverOf(part, cone);
  const size = (length: Length): string => formatSize(length, unit);
  const ways: Readonly<Record<TaperMethod, string>> = {
    compound: `Compound at ${degrees} degrees: it must travel ${size(slopeOf(cone))}${compoundTravel === null ? '' : `, and has ${size(compoundTravel)}`}; fed by hand.`,
    attachment: `Taper attachment at ${taperText(part, cone)} over ${size(cone.over)}${taperAttachment === null ? '' : `, of ${size(taperAttachment.length)} that it has`}: power feed, any work length; the backlash taken out before each cut.`,
    'set-over': `Tailstock set over ${size(over)} toward the operator, L(D − d)/2l with L ${size(betweenBearings(part))} where the centres bear${tailstockSetOver === null ? '' : over > tailstockSetOver ? `; it has only ${size(tailstockSetOver)}` : `, of ${size(tailstockSetOver)} that it has`}: only between centres, only for slow tapers, and back to zero by a test bar after.`,
  };
  return (['compound', 'attachment', 'set-over'] as const).filter((way) => way !== chosen).map((way) => ways[way]);
}
