export {
  cautionKeyField, coordinateSchema, cutSchema, fitNameField, instrumentField, operationKindField, operationSchema, quantityField,
  targetSchema,
  type CautionKey, type Coordinate, type Cut, type FitName, type MeasuredQuantity, type Operation, type Target,
} from './operation.ts';
export { routeSchema, setupSchema, type Route, type Setup } from './route.ts';
export { windowOf, type SizeWindow } from './window.ts';
export { leavesMetal } from './leavesMetal.ts';
export { CAUTIONS, DEFERS_TO, STOP_FIRST, type Caution } from './cautions.ts';
export { checkRoute, type Warning, type WarningKey } from './checks.ts';
export { describeWarning } from './warnings.ts';
export { carriageTravel, type CarriageTravel } from './carriage.ts';
export {
  crossSlideReading, dialReading, dialWork, divisionBelow, nearestDivision, passesOf, threadInfeeds, type DialReading,
  type DialWork, type PassGroup,
} from './workings.ts';
export { routeSheet, timeText } from './sheet.ts';
export { mateTexts, passTexts, stopText } from './sheetLines.ts';
export { ALLOWANCES, describeRouteFault, routeFor, type RouteFault } from './generate/index.ts';
export {
  applyEdit, applyEdits, changesBetween, describeChange, describeEditFault, editedPartFileSchema, keepMeasuring,
  readEditedPartFile, reapply,
  remeasured,
  routeEditSchema, unedited,
  type ChangedValue, type EditedPartFile, type EditedRoute, type EditFault, type EditNumber, type EditNumbers, type LeftOver,
  type MateReadings, type RouteChange, type RouteEdit,
} from './editing/index.ts';
