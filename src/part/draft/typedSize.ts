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

/** A size as it is typed in a unit, or with a unit of its own where the unit would not give it exactly. */
export function typedSize(length: Length, unit: DisplayUnit): string {
  const fraction = unit === 'inch' && length % NM_PER_INCH !== 0 ? formatFraction(length) : null;
  const short = fraction ?? (unit === 'inch' ? formatInch(length, 4) : formatMillimetre(length, 3));
  const read = parseLength(short, unit);
  return read.ok && read.value === length ? short : writeLength(length);
}
