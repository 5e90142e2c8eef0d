import { z } from 'zod';
import { idField, lineField, machineSchema, ownInstrumentsSchema, partSchema } from '../part/index.ts';
import { routeSchema } from '../route/index.ts';

/**
 * What a job is about, fixed when it is started: the part, the machines and the route. The readings are not here: they are
 * events. `invented` marks demo data.
 */
export const planSchema = z
  .strictObject({
    id: idField,
    title: lineField,
    invented: z.boolean(),
    part: partSchema,
    machines: z.array(machineSchema).min(1),
    /** Left out where every instrument is as the standard says. */
    instruments: ownInstrumentsSchema.optional(),
    route: routeSchema,
  })
  .superRefine((plan, context) => {
    const machines = new Set(plan.machines.map((machine) => machine.id));
    plan.route.setups.forEach((setup, index) => {
      if (!machines.has(setup.machine))
        context.addIssue({
          code: 'custom',
          path: ['route', 'setups', index, 'machine'],
          message: `no machine is called "${setup.machine}"`,
        });
    });
    const mates = new Set(plan.part.mates.map((mate) => mate.id));
    plan.route.operations.forEach((operation, index) => {
      const fit = operation.target?.fit ?? null;
      if (fit !== null && !mates.has(fit.mate))
        context.addIssue({
          code: 'custom',
          path: ['route', 'operations', index, 'target', 'fit', 'mate'],
          message: `no mate is called "${fit.mate}"`,
        });
    });
  });
export type Plan = z.output<typeof planSchema>;
