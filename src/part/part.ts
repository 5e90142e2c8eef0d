import { z } from 'zod';
import { diameterField, idField, lengthField, lineField } from './fields.ts';

/** A thing that exists already and that the part must fit. */
export const mateSchema = z.strictObject({
  id: idField,
  kind: z.enum(['bore', 'width', 'bearing', 'bolt']),
  name: lineField,
  say: lineField,
  /** The size before it is measured at the machine: from a drawing, a catalogue or an earlier reading. */
  nominal: lengthField,
});
export type Mate = z.output<typeof mateSchema>;

/** The bar or blank that the part is cut from. */
export const stockSchema = z.strictObject({
  form: z.enum(['round', 'hexagon', 'square']),
  size: diameterField,
  length: lengthField,
  material: lineField,
});
export type Stock = z.output<typeof stockSchema>;

const windowFields = { low: lengthField, high: lengthField };

/** A turned feature, in the order from the left end of the part to the right. */
export const turnedFeatureSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('collar'), id: idField, name: lineField, diameter: z.strictObject(windowFields), length: z.strictObject(windowFields) }),
  z.strictObject({
    kind: z.literal('journal'), id: idField, name: lineField, diameter: z.strictObject(windowFields), length: z.strictObject(windowFields),
    mate: idField.nullable(),
  }),
  z.strictObject({
    kind: z.literal('offset-journal'), id: idField, name: lineField, diameter: z.strictObject(windowFields), length: z.strictObject(windowFields),
    throw: lengthField, mate: idField.nullable(),
  }),
  z.strictObject({ kind: z.literal('thread'), id: idField, name: lineField, designation: lineField, major: z.strictObject(windowFields), length: z.strictObject(windowFields) }),
]);
export type TurnedFeature = z.output<typeof turnedFeatureSchema>;

/** What is done in an end face. */
export const endFeatureSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('centre'), id: idField, name: lineField, end: z.enum(['left', 'right']) }),
  z.strictObject({
    kind: z.literal('tapped-hole'), id: idField, name: lineField, end: z.enum(['left', 'right']), designation: lineField, drill: diameterField,
    drillDepth: lengthField, threadDepth: lengthField,
  }),
]);
export type EndFeature = z.output<typeof endFeatureSchema>;

/** What is milled into the side. */
export const milledFeatureSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('flat'), id: idField, name: lineField, on: idField, depth: lengthField, length: lengthField }),
  z.strictObject({ kind: z.literal('keyway'), id: idField, name: lineField, on: idField, width: lengthField, depth: lengthField, length: lengthField }),
  z.strictObject({ kind: z.literal('pin-pocket'), id: idField, name: lineField, on: idField, diameter: diameterField, depth: lengthField, timedTo: idField.nullable() }),
]);
export type MilledFeature = z.output<typeof milledFeatureSchema>;

/** What is to be made, from what, to fit what. */
export const partSchema = z
  .strictObject({
    id: idField,
    name: lineField,
    unit: z.enum(['inch', 'millimetre']),
    stock: stockSchema,
    mates: z.array(mateSchema),
    turned: z.array(turnedFeatureSchema).min(1),
    ends: z.array(endFeatureSchema),
    milled: z.array(milledFeatureSchema),
  })
  .superRefine((part, context) => {
    const ids = new Set<string>();
    const groups = [['mates', part.mates], ['turned', part.turned], ['ends', part.ends], ['milled', part.milled]] as const;
    for (const [group, members] of groups)
      members.forEach((member, index) => {
        if (ids.has(member.id)) context.addIssue({ code: 'custom', path: [group, index, 'id'], message: `"${member.id}" stands twice` });
        ids.add(member.id);
      });
    const mates = new Set(part.mates.map((mate) => mate.id));
    part.turned.forEach((feature, index) => {
      if ('mate' in feature && feature.mate !== null && !mates.has(feature.mate))
        context.addIssue({ code: 'custom', path: ['turned', index, 'mate'], message: `${feature.name}: no mate is called "${feature.mate}"` });
    });
  });
export type Part = z.output<typeof partSchema>;
