import { micrometres, millimetres, thou, zero, type DisplayUnit, type Length } from '../../measure/index.ts';
import type { Stock } from '../../part/index.ts';
import { STICK_OUT } from '../../trade/index.ts';

/** What is left on purpose, and how far what nobody has drawn may be off; on the diameter or along the axis but where it says. */
export type Allowances = {
  /**
   * On the diameter after roughing at least, rounded up so that two equal finishing passes are whole divisions, with as much as
   * a rough cut may miss it either way.
   */
  readonly rough: Length;
  readonly roughSpread: Length;
  /** What the two equal last passes of a diameter with a wide window take together, rounded up like that. */
  readonly lastTwo: Length;
  /** The least, on the radius, that a rough pass is worth taking. */
  readonly leastPass: Length;
  /** How far a rough cut stays off the shoulder. */
  readonly shoulder: Length;
  /** What finish turning leaves to file, and to polish, with the spread of that finish cut. */
  readonly file: Length;
  readonly fileSpread: Length;
  readonly polish: Length;
  readonly polishSpread: Length;
  /** Left on a shoulder that is faced to a measured length, and on an end that is. */
  readonly shoulderToLength: Length;
  readonly endToLength: Length;
  /** On the second end, faced last, and what facing a parted end clean takes before that. */
  readonly secondEnd: Length;
  readonly clean: Length;
  /** Facing a sawn end. */
  readonly sawn: Length;
  /** More than this over length is sawn off and not faced away. */
  readonly worthSawing: Length;
  readonly partingWidth: Length;
  /** The narrowest and the usual grooving tool. */
  readonly narrowGroove: Length;
  readonly grooveTool: Length;
  /** Between the jaws and where the tool stops; how far a cut goes past the pivot on a blank, to meet that of the other end. */
  readonly jawRoom: Length;
  readonly overlap: Length;
  /** The lead on the end of what is pressed in. */
  readonly lead: Length;
  /** A pass along a cone, and one of the boring bar with each of its last two: on the radius. */
  readonly taperPass: Length;
  readonly boringPass: Length;
  readonly lastBored: Length;
  /** How far a mate may be from what it is called to be before its reading is doubted: a slip, and not a mate that differs. */
  readonly mateOff: Length;
  /** How far off an undercut, the depth of a drilled hole and a milled depth may be, where the part gives no limits. */
  readonly undercutOff: Length;
  readonly drilledOff: Length;
  readonly milledOff: Length;
  /** What the indicator may show of work that is to run true, or over and under twice a throw. */
  readonly trueWithin: Length;
  /** The least distance that a carriage stop can name. */
  readonly leastStop: Length;
};

/**
 * By the unit of the part: the same amounts as a shop that works in it would say them, so that no size on a sheet is an amount of
 * the other unit in disguise. Common practice, no source; milled depths in millimetres are held as ISO 2768 medium holds small
 * sizes. What a stop is reckoned from lies on tenths there, and passes are whole divisions of dials of .02, .05 and .1 mm alike.
 */
export const ALLOWANCES: Readonly<Record<DisplayUnit, Allowances>> = {
  inch: {
    rough: thou(30),
    roughSpread: thou(5),
    lastTwo: thou(10),
    leastPass: thou(5),
    shoulder: thou(10),
    file: thou(2.5),
    fileSpread: thou(0.5),
    polish: thou(1),
    polishSpread: thou(0.4),
    shoulderToLength: thou(4),
    endToLength: thou(10),
    secondEnd: thou(20),
    clean: thou(10),
    sawn: thou(30),
    worthSawing: thou(150),
    partingWidth: thou(125),
    narrowGroove: thou(40),
    grooveTool: thou(125),
    jawRoom: thou(250),
    overlap: thou(50),
    lead: thou(40),
    taperPass: thou(10),
    boringPass: thou(15),
    lastBored: thou(3),
    mateOff: thou(10),
    undercutOff: thou(5),
    drilledOff: thou(20),
    milledOff: thou(3),
    trueWithin: thou(1),
    leastStop: thou(1),
  },
  millimetre: {
    rough: millimetres(0.8),
    roughSpread: millimetres(0.1),
    lastTwo: millimetres(0.4),
    leastPass: millimetres(0.1),
    shoulder: millimetres(0.25),
    file: millimetres(0.06),
    fileSpread: millimetres(0.01),
    polish: millimetres(0.025),
    polishSpread: millimetres(0.01),
    shoulderToLength: millimetres(0.1),
    endToLength: millimetres(0.3),
    secondEnd: millimetres(0.5),
    clean: millimetres(0.3),
    sawn: millimetres(0.75),
    worthSawing: millimetres(4),
    partingWidth: millimetres(3),
    narrowGroove: millimetres(1),
    grooveTool: millimetres(3),
    jawRoom: millimetres(6),
    overlap: millimetres(1),
    lead: millimetres(1),
    taperPass: millimetres(0.2),
    boringPass: millimetres(0.4),
    lastBored: millimetres(0.1),
    mateOff: millimetres(0.25),
    undercutOff: millimetres(0.1),
    drilledOff: millimetres(0.5),
    milledOff: millimetres(0.1),
    trueWithin: millimetres(0.02),
    leastStop: millimetres(0.02),
  },
};

/** What decides and is not left: alike whatever the unit of the part. Common practice, no source. */
export const BOUNDS = {
  /** Wall that must stay round a hole in an end. */
  wall: millimetres(2),
  /** The least length that a chuck can hold, whatever the diameter, and that a driving dog takes. */
  grip: millimetres(10),
  dog: millimetres(12),
  /** A length with a wider window is read with a caliper, a closer one with a depth micrometer. */
  closeLength: thou(5),
  /** Widest window that still wants a micrometer, and a rough cut before the finishing cut. */
  fine: micrometres(100),
  /** So little over what it leaves is not worth a rough cut of its own: the finishing cut takes it too. */
  notWorthRoughing: thou(5),
} as const;

/** What must come off the diameter before clean metal, by how the bar was left. Common practice, no source. */
export function skinOf({ condition }: Stock): Length {
  switch (condition) {
    case 'hot-rolled':
      return millimetres(1.5);
    case 'cast':
    case 'forged':
      return millimetres(4);
    case 'cold-drawn':
    case 'ground':
    case null:
      return zero;
  }
}

/** Lengths in diameters: more than this out of a chuck needs the tailstock; more than that between supports, a steady rest. */
export const SLENDER = { tailstock: STICK_OUT.safe, steady: 12 } as const;

/**
 * Force of out-of-balance work in newtons beyond which it is run slower, and depths in diameters of a drill and a boring bar.
 * Ours.
 */
export const LIMITS = { unbalanceN: 60, boringBar: 4, drillPeck: 3 } as const;
