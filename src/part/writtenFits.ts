import { z } from 'zod';
import { fail, formatSize, ok, writeLength, type Instruments, type Result } from '../measure/index.ts';
import { fitLimits, type FitFault } from './fitted.ts';
import { mateSchema, type Mate } from './mate.ts';
import { placeName, type FileProblem } from './problem.ts';

const fittedFeature = z.looseObject({ fit: z.string(), mate: z.string(), diameter: z.undefined().optional() });
const outline = z.looseObject({
  unit: z.enum(['inch', 'millimetre']),
  mates: z.array(mateSchema),
  turned: z.array(z.unknown()),
  ends: z.array(z.unknown()).optional(),
});

function describeFitFault(fault: FitFault, mate: Mate, unit: 'inch' | 'millimetre'): string {
  switch (fault.key) {
    case 'no-such-fit':
      return `no fit is called "${fault.fit}" at ${formatSize(mate.nominal, unit)}`;
    case 'mate-too-uncertain':
      return `the ${mate.say} is known to ${formatSize(fault.uncertainty, unit)} either way, and the fit has ${formatSize(fault.room, unit)} of room: measure it with a better instrument`;
  }
}

/**
 * The JSON of a part in which every diameter that was left out beside a fit follows from its mate, of journals and of bores. JSON
 * that is no part comes back as it is: the schema says what is wrong with it.
 */
export function withFittedDiameters(
  json: unknown,
  base: readonly string[],
  instruments: Instruments,
): Result<unknown, FileProblem> {
  const read = outline.safeParse(json);
  if (!read.success) return ok(json);
  const { unit, mates } = read.data;
  const groups: Record<string, unknown[]> = {};
  for (const group of ['turned', 'ends'] as const) {
    for (const [index, feature] of (read.data[group] ?? []).entries()) {
      const fitted = fittedFeature.safeParse(feature);
      const mate = fitted.success ? mates.find((candidate) => candidate.id === fitted.data.mate) : undefined;
      const written = (groups[group] ??= []);
      if (!fitted.success) {
        written.push(feature);
        continue;
      }
      if (mate === undefined) {
        const says = `no mate is called "${fitted.data.mate}"`;
        return fail({ path: [...base, group, index, 'mate'], place: placeName(json, [group, index]), says });
      }
      const limits = fitLimits(fitted.data.fit, mate, instruments);
      if (!limits.ok) {
        const place = placeName(json, [group, index]);
        return fail({ path: [...base, group, index, 'fit'], place, says: describeFitFault(limits.error, mate, unit) });
      }
      written.push({ ...fitted.data, diameter: { low: writeLength(limits.value.low), high: writeLength(limits.value.high) } });
    }
  }
  return ok({ ...(json as object), ...groups });
}
