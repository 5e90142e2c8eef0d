export {
  ringSize,
  ringTolerance,
  SEAT_LOADS,
  seatClass,
  seatLimits,
  type BearingRing,
  type MeasuredRing,
  type SeatLoad,
} from './bearingSeats.ts';
export { LARGEST_ISO_SIZE, toleranceOf, type FitFault } from './isoGrades.ts';
export { holeDeviations, shaftDeviations, type Deviations } from './isoDeviations.ts';
export { fitLimitsOf, isoFit, isoLimits, type FitLimits, type SizeLimits } from './isoFits.ts';
export { INCH_FITS, inchFit, LARGEST_INCH_SIZE, parseInchFit, type InchFit, type InchFitFault } from './inchFits.ts';
export { clearances, HAND_FIT_FEELS, HAND_FITS, handClearances, type Clearances, type HandFit } from './handFits.ts';
export {
  boreShape,
  boreWindow,
  fitWindow,
  type BoreReading,
  type BoreShape,
  type FitWindow,
  type FitWindowFault,
} from './fitWindow.ts';
export {
  ALUMINIUM,
  BRASS,
  dropRoom,
  ELASTIC,
  shaftTemperature,
  STAINLESS,
  assemblyOf,
  CAST_IRON,
  contactPressureMPa,
  hubStressMPa,
  hubTemperature,
  pressForceN,
  PRESSING_CAUTION,
  STEEL,
  type Assembly,
  type ElasticMaterial,
  type PressedPair,
} from './interference.ts';
export { jawForceN, ringGives, squeezedOutOfRound, type RingInJaws } from './jawSqueeze.ts';
export {
  blindHoleDepth,
  engagementInDiameters,
  externalDepth,
  fullThreadRoot,
  infeeds,
  internalMinor,
  parseThread,
  pitchDiameter,
  sharpHeight,
  stressAreaMm2,
  stressAreaSquareInches,
  TAP_LEADS,
  tapHole,
  threadPercent,
  turnsFor,
  type Thread,
  type ThreadFault,
} from './threads.ts';
export { externalMajor } from './threadMajor.ts';
export { bearsAt, centreHoleFor, type CentreHole } from './centreHoles.ts';
export { FLUIDS, type Fluid } from './fluids.ts';
export { drillCalled, DRILLS, nearestDrill, pointLength, type Drill, type DrillSet } from './drills.ts';
export {
  exactRzUm,
  feetPerMinute,
  metresPerMinute,
  minutesFor,
  rpmByFourTimes,
  rpmFor,
  speedToSet,
  surfaceSpeed,
  theoreticalRaUm,
  theoreticalRzUm,
  toFeetPerMinute,
  type SurfaceSpeed,
} from './speeds.ts';
export {
  advisedSpeed,
  deepestRough,
  EDGES,
  NOSES,
  toolIn,
  CUTS,
  feedRange,
  materialIn,
  MATERIALS,
  REDUCTIONS,
  SURFACE_SPEEDS_FPM,
  TOOLS,
  type CutKind,
  type FeedRange,
  type Material,
  type Range,
  type Reduction,
  type SpeedAdvice,
  type ToolMaterial,
} from './cuttingData.ts';
export { cuttingForceN, radialForceN, SPECIFIC_FORCES, spindlePowerKw } from './power.ts';
export {
  barMassKg,
  clearingRadius,
  indicatorRange,
  jawMove,
  packingPiece,
  packingPieceFlatJaws,
  stockFor,
  sweptDiameter,
  throwOfPacking,
  unbalanceForceN,
} from './eccentric.ts';
export {
  advanceFor,
  compoundAngle,
  compoundAngleByFoot,
  MORSE_TAPER_PER_FOOT,
  setOver,
  setOverByFoot,
  taperPerFoot,
  taperRatio,
  type Taper,
} from './taper.ts';
export { deflection, secondMomentMm4, STICK_OUT, stickOut, type Holding, type StickOut } from './deflection.ts';
export {
  expansionOf,
  EXPANSIONS,
  sizeAtReference,
  sizeFromWarmReading,
  type Expansion,
  type ThermalMaterial,
} from './thermal.ts';
export {
  believed,
  chanceBelow,
  changed,
  independent,
  seen,
  shifted,
  type Belief,
  type Estimate,
  type Weights,
} from './belief.ts';
export {
  acceptance,
  asLength,
  combined,
  effectiveFreedom,
  fromExpanded,
  fromLimits,
  fromResolution,
  proofOf,
  studentT95,
  typeA,
  type Proof,
  type TypeA,
} from './uncertainty.ts';
export { eccentricityOf, leverTrue, solve3, type Eccentricity, type SpindleReading } from './runout.ts';
export {
  boltChord,
  boltCircle,
  centreBetween,
  circleThrough,
  edgeAt,
  radiusFromChord,
  type Circle,
  type Point,
} from './circles.ts';
export { lengthForPlay, worstCase, type Link } from './stackUp.ts';
export { FILING_ALLOWANCE, perRound, POLISHING_ALLOWANCE, roundsLeft, THINNEST_CUT } from './filing.ts';
