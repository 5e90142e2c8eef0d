import { z } from 'zod';
import { endFeatureSchema } from './endFeature.ts';
import { idField, lineField } from './fields.ts';
import { mateSchema } from './mate.ts';
import { milledFeatureSchema } from './milled.ts';
import { checkEdges, checkLengths, checkSides, checkTurned } from './partChecks.ts';
import { stockSchema } from './stock.ts';
import { edgeFeatureSchema, turnedFeatureSchema } from './turned.ts';

/** What is to be made, from what, to fit what. */
export const partSchema = z
  .strictObject({
    id: idField,
    name: lineField,
    unit: z.enum(['inch', 'millimetre']),
    stock: stockSchema,
    mates: z.array(mateSchema),
    turned: z.array(turnedFeatureSchema).min(1),
    /** Chamfers, fillets and undercuts at the ends of turned features. */
    edges: z.array(edgeFeatureSchema).default([]),
    ends: z.array(endFeatureSchema),
    milled: z.array(milledFeatureSchema),
  })
  .superRefine((part, context) => {
    const wrong = (path: readonly (string | number)[], message: string): void =>
      context.addIssue({ code: 'custom', path: [...path], message });
    const ids = new Set<string>();
    const groups = [
      ['mates', part.mates],
      ['turned', part.turned],
      ['edges', part.edges],
      ['ends', part.ends],
      ['milled', part.milled],
    ] as const;
    for (const [group, members] of groups)
      members.forEach((member, index) => {
        if (ids.has(member.id)) wrong([group, index, 'id'], `"${member.id}" stands twice`);
        ids.add(member.id);
      });
    checkTurned(part, wrong);
    checkLengths(part, wrong);
    checkEdges(part, wrong);
    checkSides(part, wrong);
  });
export type Part = z.output<typeof partSchema>;
