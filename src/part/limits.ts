import { z } from 'zod';
import { lengthField } from './fields.ts';

/** Two limits, both allowed, more than nothing. */
export const limitsSchema = z.strictObject({ low: lengthField, high: lengthField }).superRefine(({ low, high }, context) => {
  if (low <= 0) context.addIssue({ code: 'custom', path: ['low'], message: 'a size is more than zero' });
  if (low > high) context.addIssue({ code: 'custom', path: ['low'], message: 'the low limit is above the high limit' });
});
export type Limits = z.output<typeof limitsSchema>;
