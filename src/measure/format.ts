import { roundedQuotient } from './rounding.ts';
import { NM_PER_INCH, NM_PER_MM, NM_PER_SIXTY_FOURTH, NM_PER_THOU, type Length } from './length.ts';

/** The unit that the shop shows and speaks; a single number may override it by naming its own. */
export type DisplayUnit = 'inch' | 'millimetre';

/** A length as digits of a decimal unit: sign, whole part, and exactly `places` digits after the point. */
function decimalDigits(length: Length, nmPerUnit: number, places: number): { sign: string; whole: string; part: string } {
  const scale = 10 ** places;
  // Displays round once, half away from zero: the way a person writes a reading down.
  const scaled = roundedQuotient(Math.abs(length) * scale, nmPerUnit, 'half-away');
  const digits = String(scaled).padStart(places + 1, '0');
  const cut = digits.length - places;
  return { sign: length < 0 && scaled !== 0 ? '-' : '', whole: digits.slice(0, cut), part: digits.slice(cut) };
}

/**
 * Inches the way a shop writes them: no zero before the point, three places, a fourth (or more, to `maxPlaces`) only
 * when it is not zero: `.627`, `.6275`, `1.3125`. Rounded half away from zero at `maxPlaces`.
 */
export function formatInch(length: Length, maxPlaces: number): string {
  const { sign, whole, part } = decimalDigits(length, NM_PER_INCH, maxPlaces);
  const shown = part.replace(/0+$/, '').padEnd(Math.min(3, maxPlaces), '0');
  return shown === '' ? `${sign}${whole}` : `${sign}${whole === '0' ? '' : whole}.${shown}`;
}

/** Millimetres: two places, a third (or more, to `maxPlaces`) only when it is not zero: `19.05`, `24.985`. */
export function formatMillimetre(length: Length, maxPlaces: number): string {
  const { sign, whole, part } = decimalDigits(length, NM_PER_MM, maxPlaces);
  const shown = part.replace(/0+$/, '').padEnd(Math.min(2, maxPlaces), '0');
  return shown === '' ? `${sign}${whole}` : `${sign}${whole}.${shown}`;
}

/** A size with its unit, as the record and the screen show it: `.6275 in`, `15.94 mm`. */
export function formatSize(length: Length, unit: DisplayUnit): string {
  switch (unit) {
    case 'inch':
      return `${formatInch(length, 4)} in`;
    case 'millimetre':
      return `${formatMillimetre(length, 3)} mm`;
  }
}

/** A small amount the way it is said: thousandths in inch work (`2 thou`, `0.5 thou`), millimetres in metric (`0.05 mm`). */
export function formatAmount(length: Length, unit: DisplayUnit): string {
  switch (unit) {
    case 'inch': {
      if (Math.abs(length) >= NM_PER_INCH / 10) return `${formatInch(length, 4)} in`;
      const tenths = roundedQuotient(Math.abs(length) * 10, NM_PER_THOU, 'half-away');
      const text = tenths % 10 === 0 ? String(tenths / 10) : (tenths / 10).toFixed(1);
      return `${length < 0 && tenths !== 0 ? '-' : ''}${text} thou`;
    }
    case 'millimetre':
      return `${formatMillimetre(length, 3)} mm`;
  }
}

/** A fraction of an inch in lowest terms to 1/64 (`1 5/16`, `13/64`), or null where the length is not one. */
export function formatFraction(length: Length): string | null {
  if (length < 0 || length % NM_PER_SIXTY_FOURTH !== 0) return null;
  const parts = length / NM_PER_SIXTY_FOURTH;
  const whole = Math.floor(parts / 64);
  let over = parts % 64;
  if (over === 0) return String(whole);
  let under = 64;
  while (over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  return whole === 0 ? `${over}/${under}` : `${whole} ${over}/${under}`;
}

/** Digits of a whole count of 10^-places, with the point put in and no zeros at the end. */
function pointed(count: number, places: number): string {
  const digits = String(Math.abs(count)).padStart(places + 1, '0');
  const part = digits.slice(-places).replace(/0+$/, '');
  return `${count < 0 ? '-' : ''}${digits.slice(0, -places)}${part === '' ? '' : `.${part}`}`;
}

/**
 * The length as text that loses nothing, for files: inches or millimetres, whichever needs fewer digits
 * (`0.627in`, `15.94mm`); a tie goes to millimetres. `parseLength` reads it back to the same nanometre, up to its 100 m.
 */
export function writeLength(length: Length): string {
  const metric = `${pointed(length, 6)}mm`;
  // 25 400 000 is 127 times 200 000: only multiples of 127 nm end in inches, and then within six places.
  if (length % 127 !== 0) return metric;
  const imperial = `${pointed((length / 127) * 5, 6)}in`;
  return imperial.length < metric.length ? imperial : metric;
}
