import { z } from 'zod';
import { acrossField, lineField, sizeField } from './fields.ts';

/** How a bar was left by its maker; a skin of scale must be cut away, a ground bar is a size of its own. */
export const CONDITIONS = ['cold-drawn', 'hot-rolled', 'ground', 'cast', 'forged'] as const;

/** The bar or blank that the part is cut from. Of a hexagon or a square the size is across the flats. */
export const stockSchema = z.strictObject({
  form: z.enum(['round', 'hexagon', 'square']),
  size: acrossField,
  length: sizeField,
  material: lineField,
  condition: z.enum(CONDITIONS).nullable().default(null),
});
export type Stock = z.output<typeof stockSchema>;
