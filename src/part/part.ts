import { z } from 'zod';
import { acrossField, idField, lengthField, lineField, sizeField } from './fields.ts';

/** Two limits, both allowed, more than nothing. */
const limits = z.strictObject({ low: lengthField, high: lengthField }).superRefine(({ low, high }, context) => {
  if (low <= 0) context.addIssue({ code: 'custom', path: ['low'], message: 'a size is more than zero' });
  if (low > high) context.addIssue({ code: 'custom', path: ['low'], message: 'the low limit is above the high limit' });
});

/** A thing that exists already and that the part must fit. */
export const mateSchema = z.strictObject({
  id: idField,
  kind: z.enum(['bore', 'width', 'bearing', 'bolt']),
  name: lineField,
  say: lineField,
  /** The size before it is measured at the machine: from a drawing, a catalogue or an earlier reading. */
  nominal: sizeField,
});
export type Mate = z.output<typeof mateSchema>;

/** The bar or blank that the part is cut from. */
export const stockSchema = z.strictObject({
  form: z.enum(['round', 'hexagon', 'square']),
  size: acrossField,
  length: sizeField,
  material: lineField,
});
export type Stock = z.output<typeof stockSchema>;

/**
 * What every plain turned feature has. `between` names the width that its length holds with end play (a hub between a shoulder
 * and a washer); `finish` says how the diameter is brought to size.
 */
const plain = {
  id: idField,
  name: lineField,
  diameter: limits,
  length: limits,
  between: idField.nullable().default(null),
  finish: z.enum(['turned', 'filed', 'polished']).default('turned'),
};

/** A turned feature, in the order from the left end of the part to the right. */
export const turnedFeatureSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('collar'), ...plain }),
  z.strictObject({ kind: z.literal('journal'), ...plain, mate: idField.nullable() }),
  z.strictObject({ kind: z.literal('offset-journal'), ...plain, throw: sizeField, mate: idField.nullable() }),
  z.strictObject({
    kind: z.literal('thread'),
    id: idField,
    name: lineField,
    designation: lineField,
    major: limits,
    length: limits,
  }),
]);
export type TurnedFeature = z.output<typeof turnedFeatureSchema>;

/** What is done in an end face. */
export const endFeatureSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('centre'), id: idField, name: lineField, end: z.enum(['left', 'right']) }),
  z.strictObject({
    kind: z.literal('tapped-hole'), id: idField, name: lineField, end: z.enum(['left', 'right']), designation: lineField, drill: acrossField,
    drillDepth: sizeField, threadDepth: sizeField,
  }),
]);
export type EndFeature = z.output<typeof endFeatureSchema>;

/** What is milled into the side. */
export const milledFeatureSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('flat'), id: idField, name: lineField, on: idField, depth: sizeField, length: sizeField }),
  z.strictObject({ kind: z.literal('keyway'), id: idField, name: lineField, on: idField, width: sizeField, depth: sizeField, length: sizeField }),
  z.strictObject({ kind: z.literal('pin-pocket'), id: idField, name: lineField, on: idField, diameter: acrossField, depth: sizeField, timedTo: idField.nullable() }),
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
        context.addIssue({ code: 'custom', path: ['turned', index, 'mate'], message: `no mate is called "${feature.mate}"` });
    });
    const widths = new Set(part.mates.filter((mate) => mate.kind === 'width').map((mate) => mate.id));
    part.turned.forEach((feature, index) => {
      if ('between' in feature && feature.between !== null && !widths.has(feature.between))
        context.addIssue({ code: 'custom', path: ['turned', index, 'between'], message: `no width is called "${feature.between}"` });
    });
    part.ends.forEach((feature, index) => {
      if (feature.kind === 'tapped-hole' && feature.threadDepth > feature.drillDepth)
        context.addIssue({ code: 'custom', path: ['ends', index, 'threadDepth'], message: 'the thread is deeper than its drilled hole' });
    });
    const turned = new Set(part.turned.map((feature) => feature.id));
    part.milled.forEach((feature, index) => {
      if (!turned.has(feature.on))
        context.addIssue({ code: 'custom', path: ['milled', index, 'on'], message: `no turned feature is called "${feature.on}"` });
      if (feature.kind === 'pin-pocket' && feature.timedTo !== null && !turned.has(feature.timedTo))
        context.addIssue({ code: 'custom', path: ['milled', index, 'timedTo'], message: `no turned feature is called "${feature.timedTo}"` });
    });
  });
export type Part = z.output<typeof partSchema>;
