import type { Plan } from '../../src/job/index.ts';
import { micrometres, millimetres } from '../../src/measure/index.ts';
import { plan } from './scene.ts';

/* The demo's bearing seat by a class, invented: 20 k5 is +2 to +11 µm, which holds the middle ring, 19.995, by 7 to 16. */
export const seat = 'polish-bearing-seat';
export const target = {
  quantity: 'diameter',
  low: millimetres(20.002),
  high: millimetres(20.011),
  aim: millimetres(20.0065),
  from: millimetres(20.02),
  datum: null,
  fit: { mate: 'wheel-bearing', name: 'tap', leastClearance: micrometres(-16), mostClearance: micrometres(-7) },
} as const;
/** The demo with that seat. */
export const seated: Plan = {
  ...plan,
  route: { ...plan.route, operations: plan.route.operations.map((one) => (one.id === seat ? { ...one, target } : one)) },
};
