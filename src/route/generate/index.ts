export { ALLOWANCES } from './allowances.ts';
export { describeRouteFault, type RouteFault } from './faults.ts';
export { routeFor } from './routeFor.ts';
