import type { Plan } from '../../job/index.ts';
import { fakeStore, type FakeStore } from './fakeStore.ts';
import { inchPlan, metricPlan } from './plans.ts';

const stepsOf = (unit: string, plan: Plan): (readonly [string, () => FakeStore])[] =>
  plan.route.operations.map(({ id }, index) => [
    `${unit}-${index + 1}-${id}`,
    () => {
      const store = fakeStore(plan);
      void store.getState().command({ type: 'go-to', step: { as: 'one', value: index + 1 } });
      return store;
    },
  ]);

/** Every step of both demo jobs as it looks when it has just been opened, with the answer that opening it gives. */
export const STEP_SCENES: Readonly<Record<string, () => FakeStore>> = Object.fromEntries([
  ...stepsOf('inch', inchPlan),
  ...stepsOf('metric', metricPlan),
]);
