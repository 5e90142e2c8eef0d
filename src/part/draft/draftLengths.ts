import { writeLength } from '../../measure/index.ts';
import { ownLengths, type Linked } from '../chain.ts';
import { DATUMS, type Datum } from '../datum.ts';
import type { Limits } from '../limits.ts';
import { describeChainFault } from '../writtenLengths.ts';
import { typedIn, type Draft } from './draft.ts';
import type { Json } from './fieldTexts.ts';

/** The lengths of a draft's turned rows as the part has them: between the two ends of each, and the datum it was typed from. */
export type DraftLengths = {
  readonly of: readonly { readonly own: Limits; readonly datum: Json }[];
  readonly fault: { readonly row: string; readonly says: string } | null;
};

const isDatum = (text: string): text is Datum => (DATUMS as readonly string[]).includes(text);

const written = ({ low, high }: Limits): Json => ({ low: writeLength(low), high: writeLength(high) });

/**
 * Works the chain of lengths of a draft out of the lengths as they were typed, one a turned row or null where it does not read;
 * nothing while one of them does not, or where none names a face or a shoulder.
 */
export function draftLengths(draft: Draft, typed: readonly (Limits | null)[]): DraftLengths | null {
  const datums = draft.turned.map(({ values }) => typedIn(values, 'datum'));
  if (!datums.some(isDatum)) return null;
  const features: Linked[] = [];
  for (const [at, from] of datums.entries()) {
    const length = typed[at] ?? null;
    if (length === null) return null;
    features.push({ length, datum: isDatum(from) ? { from, length } : null });
  }
  const lengths = ownLengths(features);
  if (!lengths.ok) {
    const named = (at: number): string => {
      const row = draft.turned[at];
      return row === undefined ? '' : typedIn(row.values, 'name') || row.kind;
    };
    return {
      of: [],
      fault: { row: draft.turned[lengths.error.feature]?.id ?? '', says: describeChainFault(lengths.error, named, draft.unit) },
    };
  }
  return {
    of: lengths.value.map((own, at) => {
      const datum = features[at]?.datum ?? null;
      return { own, datum: datum === null ? null : { from: datum.from, length: written(datum.length) } };
    }),
    fault: null,
  };
}
