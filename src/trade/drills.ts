import {
  asDiameter,
  formatFraction,
  inches,
  millimetres,
  scaled,
  sixtyFourths,
  toRadians,
  type Angle,
  type Diameter,
  type Length,
} from '../measure/index.ts';

/** A drill that is sold: how it is asked for, and its diameter. */
export type Drill = {
  readonly series: 'number' | 'letter' | 'fraction' | 'metric';
  readonly name: string;
  readonly diameter: Diameter;
};

/** Number drills 1 to 80 in ten-thousandths of an inch (the public wire gauge table; checked values in tests). */
const NUMBERS = [
  2280, 2210, 2130, 2090, 2055, 2040, 2010, 1990, 1960, 1935, 1910, 1890, 1850, 1820, 1800, 1770, 1730, 1695, 1660, 1610, 1590,
  1570, 1540, 1520, 1495, 1470, 1440, 1405, 1360, 1285, 1200, 1160, 1130, 1110, 1100, 1065, 1040, 1015, 995, 980, 960, 935, 890,
  860, 820, 810, 785, 760, 730, 700, 670, 635, 595, 550, 520, 465, 430, 420, 410, 400, 390, 380, 370, 360, 350, 330, 320, 310,
  292, 280, 260, 250, 240, 225, 210, 200, 180, 160, 145, 135,
] as const;

/** Letter drills A to Z in thousandths of an inch. */
const LETTERS = [
  234, 238, 242, 246, 250, 257, 261, 266, 272, 277, 281, 290, 295, 302, 316, 323, 332, 339, 348, 358, 368, 377, 386, 397, 404,
  413,
] as const;

const drill = (series: Drill['series'], name: string, length: Length): Drill => ({
  series,
  name,
  diameter: asDiameter(length),
});

const numbered = NUMBERS.map((size, index) => drill('number', `#${index + 1}`, inches(size / 10_000)));
const lettered = LETTERS.map((size, index) => drill('letter', String.fromCharCode(65 + index), inches(size / 1000)));
/** 1/64 to 2 in. */
const fractional = Array.from({ length: 128 }, (_, index) => {
  const size = sixtyFourths(index + 1);
  return drill('fraction', `${formatFraction(size) ?? ''}"`, size);
});
/**
 * 0.5 to 14 mm by tenths, to 32 mm by halves: to 25 mm those of BS 328 that shops keep; over that ISO 235, from memory.
 */
const metric = [
  ...Array.from({ length: 136 }, (_, index) => (index + 5) / 10),
  ...Array.from({ length: 36 }, (_, index) => 14.5 + index / 2),
].map((size) => drill('metric', `${size} mm`, millimetres(size)));

/** Every drill of the four series, by series. */
export const DRILLS: readonly Drill[] = [...numbered, ...lettered, ...fractional, ...metric];

export type DrillSet = readonly Drill['series'][];

/** The drill of a name (`#7`, `F`, `27/64"`, `8.5 mm`), or null. */
export const drillCalled = (name: string): Drill | null => DRILLS.find((candidate) => candidate.name === name) ?? null;

/** The drill nearest in size to a hole, out of the series at hand; of two as near, the smaller. Null where no series is given. */
export function nearestDrill(hole: Length, series: DrillSet): Drill | null {
  let best: Drill | null = null;
  for (const candidate of DRILLS) {
    if (!series.includes(candidate.series)) continue;
    const off = Math.abs(candidate.diameter - hole);
    const bestOff = best === null ? Number.POSITIVE_INFINITY : Math.abs(best.diameter - hole);
    if (off < bestOff || (off === bestOff && best !== null && candidate.diameter < best.diameter)) best = candidate;
  }
  return best;
}

/** How far the point of a drill reaches beyond its full diameter: (D/2)/tan(A/2), with A the point angle. */
export function pointLength(diameter: Diameter, pointAngle: Angle): Length {
  return scaled(diameter, 1 / (2 * Math.tan(toRadians(pointAngle) / 2)), 'half-even');
}
