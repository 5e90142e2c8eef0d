export { budgetOf, expandedUncertainty, type Across, type Budget, type Place, type SizeReading, type Warmth } from './reading.ts';
export {
  cutTaken,
  edgeUnsure,
  endsOf,
  expectedAfter,
  expectedReading,
  filedOff,
  lineOf,
  shaken,
  sizeOf,
  sizeRead,
  startModel,
  taperOf,
  touchedOff,
  type CutModel,
  type Cutter,
} from './cutModel.ts';
export { surpriseOf, type Slip, type Surprise } from './slips.ts';
export { advise, chanceInside, standingOf, type Advice, type Expected, type Why, type Wishes } from './advice.ts';
export {
  A_ROUND,
  perRoundFrom,
  removedBy,
  roundsBeforeReading,
  roundsLeftFor,
  whereToFile,
  type Filed,
  type FileWhere,
  type Filing,
  type RoundsLeft,
} from './filing.ts';
export { faceFor, playOf, type Facing, type PlayAdvice, type StackLength } from './stack.ts';
export { clearanceFrom, type FitFeel } from './feel.ts';
export { PRIOR, RISK } from './priors.ts';
