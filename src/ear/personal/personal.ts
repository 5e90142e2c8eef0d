import { z } from 'zod';

/**
 * What was fitted to one person's voice in the set-up; kept on the device. Never needed: the ear hears without it.
 */
export const personalSchema = z.strictObject({
  version: z.literal(1),
  /** How far the bands of the front end are moved up (above 1, a shorter vocal tract than most) or down. */
  warp: z.number().min(0.8).max(1.3),
  /** Added to the odds (natural logarithm) that words are right. */
  bias: z.number().min(-2).max(1),
  /** How loud the person is at the microphone, decibels of full scale. */
  speechDb: z.number().min(-100).max(0),
  /** Of so many phrases of the set-up, how many came out right and accepted before it and, each judged by the others, after. */
  phrases: z.int().positive(),
  before: z.int().nonnegative(),
  after: z.int().nonnegative(),
});
export type Personal = z.output<typeof personalSchema>;

/** The shifts of the front end that are tried; 1 is the network's own. */
export const WARPS = [0.86, 0.93, 1, 1.08, 1.16, 1.24] as const;
