export {
  cautionKeyField, cutSchema, fitNameField, instrumentField, operationKindField, operationSchema, quantityField, targetSchema,
  type CautionKey, type Cut, type FitName, type MeasuredQuantity, type Operation, type Target,
} from './operation.ts';
export { routeSchema, setupSchema, type Route, type Setup } from './route.ts';
export { windowOf, type SizeWindow } from './window.ts';
