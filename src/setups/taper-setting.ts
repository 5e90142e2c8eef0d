import { degrees, minus, nanometres, roundReal, type Angle, type Diameter, type Length } from '../measure/index.ts';
import { compoundAngle, setOver, type Taper } from '../trade/index.ts';

/** How a taper is set: the compound swivelled by an angle, and the tailstock set over where the work is between centres. */
export type TaperSetting = { readonly compound: Angle; readonly tailstock: Length | null };

export const taperSetting = (taper: Taper, workLength: Length | null): TaperSetting => ({
  compound: compoundAngle(taper),
  tailstock: workLength === null ? null : setOver(taper, workLength, 'half-even'),
});

/** Two diameters read so far apart; `large` is the one at the end that is to be larger. */
export type TaperReadings = { readonly large: Diameter; readonly small: Diameter; readonly apart: Length };

/**
 * What two readings say of the setting: `over` is how much more (minus: less) the diameter changes over that length than
 * it should;
 * the compound is to be swivelled back by `compound`, the tailstock moved back by `tailstock` (minus: further).
 */
export type TaperCheck = { readonly over: Length; readonly compound: Angle; readonly tailstock: Length | null };

export function checkTaper(wanted: Taper, read: TaperReadings, workLength: Length | null): TaperCheck {
  const shows: Taper = { large: read.large, small: read.small, over: read.apart };
  const should = ((wanted.large - wanted.small) * read.apart) / wanted.over;
  const over = nanometres(roundReal(read.large - read.small - should, 'half-even'));
  const angle = (compoundAngle(shows) - compoundAngle(wanted)) / 3_600_000;
  return {
    over,
    compound: degrees(angle, 'half-even'),
    tailstock:
      workLength === null ? null : minus(setOver(shows, workLength, 'half-even'), setOver(wanted, workLength, 'half-even')),
  };
}

/**
 * The tailstock's move to turn parallel what turns tapered: half the difference, times the work over the length between
 * the readings.
 */
export const toParallel = (read: TaperReadings, workLength: Length): Length =>
  setOver({ large: read.large, small: read.small, over: read.apart }, workLength, 'half-even');

/** The rise of a sine bar, or of a compound indicated along a length, for an angle: L·sin α. */
export const sineRise = (length: Length, angle: Angle): Length =>
  nanometres(roundReal(length * Math.sin((angle / 3_600_000) * (Math.PI / 180)), 'half-even'));
