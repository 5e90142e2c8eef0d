export { routeEditSchema, type EditNumber, type EditNumbers, type RouteEdit } from './edit.ts';
export { describeEditFault, type EditFault } from './editFault.ts';
export { applyEdit, applyEdits, reapply, unedited, type EditedRoute, type LeftOver } from './applyEdits.ts';
export { keepMeasuring, remeasured, type MateReadings } from './remeasured.ts';
export { changesBetween, describeChange, type ChangedValue, type RouteChange } from './changes.ts';
export { editedPartFileSchema, readEditedPartFile, type EditedPartFile } from './editedPartFile.ts';
