import { micrometres, millimetres, thou } from '../../measure/index.ts';

/**
 * What is left on purpose, in both units alike, so that the inch and the millimetre form of a part give one route. All on the
 * diameter or along the axis. Common practice, no source.
 */
export const ALLOWANCES = {
  /** On the diameter after roughing, with as much as a rough cut may miss it either way. */
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
  /** On the second end, faced last. */
  secondEnd: thou(20),
  /** Facing a sawn end. */
  sawn: thou(30),
  partingWidth: thou(125),
  jawRoom: thou(250),
  /** Wall that must stay round a hole in an end. */
  wall: millimetres(2),
  /** The least length that a chuck can hold, whatever the diameter. */
  grip: millimetres(10),
  /** Widest window that still wants a micrometer, and a rough cut before the finishing cut. */
  fine: micrometres(100),
} as const;

/** Lengths in diameters: more than this out of a chuck needs the tailstock; more than that between supports, a steady rest. */
export const SLENDER = { tailstock: 3, steady: 12 } as const;
