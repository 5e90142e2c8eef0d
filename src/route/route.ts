import { z } from 'zod';
import { idField, sentenceField } from '../part/index.ts';
import { operationSchema } from './operation.ts';

/** One holding of the work: which machine, which end, how it is gripped and what is dialled in. */
export const setupSchema = z.strictObject({
  id: idField,
  machine: idField,
  title: sentenceField,
  say: sentenceField,
  holding: sentenceField,
  /** Why it is held like this. */
  why: z.array(sentenceField).max(12).default([]),
  /** Other ways to hold it. */
  alternatives: z.array(sentenceField).max(12).default([]),
});
export type Setup = z.output<typeof setupSchema>;

/** The operation plan: set-ups, and operations in the order they are done. */
export const routeSchema = z
  .strictObject({
    id: idField,
    setups: z.array(setupSchema).min(1),
    operations: z.array(operationSchema).min(1),
  })
  .superRefine((route, context) => {
    const setups = new Set(route.setups.map((setup) => setup.id));
    const seen = new Set<string>();
    route.operations.forEach((operation, index) => {
      if (!setups.has(operation.setup))
        context.addIssue({ code: 'custom', path: ['operations', index, 'setup'], message: `no set-up is called "${operation.setup}"` });
      if (seen.has(operation.id))
        context.addIssue({ code: 'custom', path: ['operations', index, 'id'], message: `two operations are called "${operation.id}"` });
      seen.add(operation.id);
    });
  });
export type Route = z.output<typeof routeSchema>;
