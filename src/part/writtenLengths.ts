import { z } from 'zod';
import { formatSize, ok, fail, writeLength, type DisplayUnit, type Result } from '../measure/index.ts';
import { ownLengths, type ChainFault, type Linked } from './chain.ts';
import { datumField } from './datum.ts';
import { limitsSchema, type Limits } from './limits.ts';
import { placeName, type FileProblem } from './problem.ts';

const outline = z.looseObject({
  unit: z.enum(['inch', 'millimetre']),
  turned: z.array(z.looseObject({ name: z.string().catch(''), length: limitsSchema.optional(), datum: datumField })),
});

const listed = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`;

/** What is wrong in a chain of lengths, in one line, by the names of its features. */
export function describeChainFault(fault: ChainFault, named: (feature: number) => string, unit: DisplayUnit): string {
  switch (fault.key) {
    case 'given-twice':
      return `its length from the face follows already from ${listed(fault.by.map(named))}: give one of them otherwise`;
    case 'nothing-left':
      return `between its own two ends it may come out at ${formatSize(fault.least, unit)}: the limits of the lengths round it take all of it`;
    case 'no-length':
      return 'a length is wanted';
  }
}

/** True where every own length is what the lengths of the drawing make it. */
export const followsFrom = (own: Limits, chain: Limits | undefined): boolean =>
  chain !== undefined && own.low === chain.low && own.high === chain.high;

/**
 * The JSON of a part in which every length that was left out beside its datum follows from the chain of lengths. JSON that is no
 * part comes back as it is: the schema says what is wrong with it.
 */
export function withOwnLengths(json: unknown, base: readonly string[]): Result<unknown, FileProblem> {
  const read = outline.safeParse(json);
  if (!read.success || read.data.turned.every(({ datum, length }) => datum === null || length !== undefined)) return ok(json);
  const { turned, unit } = read.data;
  const features = turned.map(({ datum, length }): Linked => ({ datum, length: length ?? null }));
  const lengths = ownLengths(features);
  if (!lengths.ok) {
    const { feature, key } = lengths.error;
    const place = placeName(json, ['turned', feature]);
    const says = describeChainFault(lengths.error, (at) => turned[at]?.name ?? '', unit);
    return fail({ path: [...base, 'turned', feature, key === 'no-length' ? 'length' : 'datum'], place, says });
  }
  const stored = (json as { readonly turned: readonly object[] }).turned;
  const whole = stored.map((feature, at) => {
    const own = lengths.value[at];
    return own === undefined || turned[at]?.length !== undefined
      ? feature
      : { ...feature, length: { low: writeLength(own.low), high: writeLength(own.high) } };
  });
  return ok({ ...(json as object), turned: whole });
}
