export { dialIn, type Chuck, type ChuckReading, type Jaw, type JawAdvice, type JawMove, type JawReading } from './four-jaw.ts';
export { type JawAim } from './jaw-choice.ts';
export { type Pair } from './jaw-belief.ts';
export { highSpotOf, offLine, turnFrom, type HighSpot, type SpotConditions, type SpotReading } from './high-spot.ts';
export { packingAgain, packingFor, throwFor, type JawFaces } from './packing.ts';
export { acrossEdges, inFromEnd, type Across } from './edges.ts';
export { holesOf, pitchOf, type HolePattern } from './hole-pattern.ts';
export { dialStop, type DialStop } from './carriage-stop.ts';
export { BACK_OFF_QUARTERS, tapAfter, tapPlan, type TapAdvice, type TapPlan } from './tapping.ts';
export {
  checkTaper,
  sineRise,
  taperSetting,
  toParallel,
  type TaperCheck,
  type TaperReadings,
  type TaperSetting,
} from './taper-setting.ts';
