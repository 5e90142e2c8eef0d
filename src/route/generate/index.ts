export { ALLOWANCES } from './allowances.ts';
export { describeRouteFault, type RouteFault } from './fault.ts';
export { routeFor } from './routeFor.ts';
