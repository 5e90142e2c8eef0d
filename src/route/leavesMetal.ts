import type { Target } from './operation.ts';

/** Whether a diameter stays too large for its mate all over its window, and is not pressed in: the next step takes it off. */
export const leavesMetal = ({ quantity, fit }: Target): boolean =>
  quantity === 'diameter' && fit !== null && fit.mostClearance < 0 && fit.name !== 'press' && fit.name !== 'tap';
