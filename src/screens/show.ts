import { formatAmount, formatFraction, formatInch, formatMillimetre, type DisplayUnit, type Length } from '../measure/index.ts';
import { words } from './words.ts';

/** A size without its unit, the way the shop writes it: `.6275`, `15.94`. */
export const bareSize = (length: Length, unit: DisplayUnit): string =>
  unit === 'inch' ? formatInch(length, 4) : formatMillimetre(length, 3);

/** Two limits with the same number of places, as a drawing has them: `29.959` and `29.980`. */
export function bothLimits(low: Length, high: Length, unit: DisplayUnit): readonly [low: string, high: string] {
  const [from, to] = [bareSize(low, unit), bareSize(high, unit)];
  const places = (text: string): number => text.length - text.indexOf('.');
  const filled = (text: string, as: string): string => text.padEnd(text.length + places(as) - places(text), '0');
  return [filled(from, to), filled(to, from)];
}

export const unitSign = (unit: DisplayUnit): string => (unit === 'inch' ? 'in' : 'mm');

/** A small amount with its unit: `2 thou`, `0.05 mm`. */
export const amountText = (length: Length, unit: DisplayUnit): string => formatAmount(length, unit);

/** A small amount in two parts, so that the number can be large and its unit small: `2` and `thou`. */
export function amountParts(length: Length, unit: DisplayUnit): { readonly number: string; readonly unit: string } {
  const text = formatAmount(length, unit);
  const at = text.lastIndexOf(' ');
  return { number: text.slice(0, at), unit: text.slice(at + 1) };
}

/** The fraction that a size is, where it is one finer than a whole inch and inches are shown; else null. */
export function fractionToo(length: Length, unit: DisplayUnit): string | null {
  const fraction = unit === 'inch' ? formatFraction(length) : null;
  return fraction !== null && fraction.includes('/') ? fraction : null;
}

const CLOCK = { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' } as const;
let moment: Intl.DateTimeFormat | null = null;

/** Date and time of day by the device's clock. `at` is milliseconds since 1970. */
export function showMoment(at: number): string {
  // Made with the first that is written: the browser takes long over it, and most pages have none.
  moment ??= new Intl.DateTimeFormat(words.locale, { day: 'numeric', month: 'short', year: 'numeric', ...CLOCK });
  return moment.format(at);
}

/** Time of day by the device's clock, as `14:05` everywhere. `at` is milliseconds since 1970. */
export function showClock(at: number): string {
  // Not by Intl: the making of its writer would hold up the first reading by a tenth of a second.
  const clock = new Date(at);
  return [clock.getHours(), clock.getMinutes()].map((part) => String(part).padStart(2, '0')).join(':');
}
