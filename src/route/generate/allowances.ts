import { micrometres, millimetres, thou, zero, type Length } from '../../measure/index.ts';
import type { Stock } from '../../part/index.ts';
import { STICK_OUT } from '../../trade/index.ts';

/**
 * What is left on purpose, in both units alike, so that the inch and the millimetre form of a part give one route. All on the
 * diameter or along the axis. Common practice, no source.
 */
export const ALLOWANCES = {
  /**
   * On the diameter after roughing at least, rounded up so that two equal finishing passes are whole divisions, with as much as
   * a rough cut may miss it either way.
   */
  rough: thou(30),
  roughSpread: thou(5),
  /** How far a rough cut stays off the shoulder. */
  shoulder: thou(10),
  /** What finish turning leaves to file, and to polish, with the spread of that finish cut. */
  file: thou(2.5),
  fileSpread: thou(0.5),
  polish: thou(1),
  polishSpread: thou(0.4),
  /** Left on a shoulder that is faced to a measured length, and on an end that is. */
  shoulderToLength: thou(4),
  endToLength: thou(10),
  /** On the second end, faced last, and what facing a parted end clean takes before that. */
  secondEnd: thou(20),
  clean: thou(10),
  /** Facing a sawn end. */
  sawn: thou(30),
  /** More than this over length is sawn off and not faced away. */
  worthSawing: thou(150),
  partingWidth: thou(125),
  /** The narrowest and the usual grooving tool. */
  narrowGroove: thou(40),
  grooveTool: thou(125),
  /** Between the jaws and where the tool stops; how far a cut goes past the pivot on a blank, to meet that of the other end. */
  jawRoom: thou(250),
  overlap: thou(50),
  /** Wall that must stay round a hole in an end. */
  wall: millimetres(2),
  /** The lead on the end of what is pressed in. */
  lead: thou(40),
  /** The least length that a chuck can hold, whatever the diameter, and that a driving dog takes. */
  grip: millimetres(10),
  dog: millimetres(12),
  /** A length with a wider window is read with a caliper, a closer one with a depth micrometer. */
  closeLength: thou(5),
  /** Widest window that still wants a micrometer, and a rough cut before the finishing cut. */
  fine: micrometres(100),
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
