import { fail, minus, ok, plus, zero, type Length, type Result } from '../measure/index.ts';
import type { DatumLength } from './datum.ts';
import type { Limits } from './limits.ts';

/** As much of a turned feature as the chain of lengths needs; `length` null where it is to follow from its datum. */
export type Linked = { readonly length: Limits | null; readonly datum: DatumLength | null };

/**
 * One length as a drawing gives it, between two planes: plane 0 is the left face, plane i the right end of the i-th feature from
 * the left, the last one the right face. `feature` is the place of the feature that gives it, from 0; `left` is less than
 * `right`.
 */
export type GivenLength = { readonly feature: number; readonly left: number; readonly right: number; readonly limits: Limits };

/** Why a chain of lengths does not hold: by the place of a feature, from 0. */
export type ChainFault =
  | { readonly key: 'given-twice'; readonly feature: number; readonly by: readonly number[] }
  | { readonly key: 'nothing-left'; readonly feature: number; readonly least: Length }
  | { readonly key: 'no-length'; readonly feature: number };

const isFaced = ({ datum }: Linked): boolean => datum?.from === 'left-face' || datum?.from === 'right-face';

/** The length that each feature gives, from left to right. */
export function givenLengths(features: readonly Linked[]): readonly GivenLength[] {
  const last = features.length;
  return features.flatMap(({ length, datum }, feature): GivenLength[] => {
    const limits = datum?.length ?? length;
    if (limits === null) return [];
    const left = datum?.from === 'left-face' ? 0 : feature;
    const right = datum?.from === 'right-face' ? last : feature + 1;
    return [{ feature, left, right, limits }];
  });
}

type Way = readonly { readonly given: GivenLength; readonly onward: boolean }[];

/**
 * The ways along lengths, which are a tree, from one plane to another: each length with whether it is added; empty where none
 * lead there.
 */
function waysAlong(given: readonly GivenLength[]): (from: number, to: number) => Way {
  const at = new Map<number, GivenLength[]>();
  const meet = (plane: number, each: GivenLength): void => {
    const here = at.get(plane);
    if (here === undefined) at.set(plane, [each]);
    else here.push(each);
  };
  for (const each of given) {
    meet(each.left, each);
    meet(each.right, each);
  }
  return (from, to) => {
    const came = new Map<number, GivenLength | null>([[from, null]]);
    const next = [from];
    for (let plane = next.pop(); plane !== undefined && plane !== to; plane = next.pop())
      for (const each of at.get(plane) ?? []) {
        const there = each.left === plane ? each.right : each.left;
        if (came.has(there)) continue;
        came.set(there, each);
        next.push(there);
      }
    const way: { readonly given: GivenLength; readonly onward: boolean }[] = [];
    for (let plane = to, by = came.get(to); by != null; by = came.get(plane)) {
      way.push({ given: by, onward: by.right === plane });
      plane = by.right === plane ? by.left : by.right;
    }
    return way;
  };
}

/** The tolerance stack along a way, its limits at their worst. */
const stackOf = (way: Way): Limits =>
  way.reduce<Limits>(
    (sum, { given: { limits }, onward }) =>
      onward
        ? { low: plus(sum.low, limits.low), high: plus(sum.high, limits.high) }
        : { low: minus(sum.low, limits.high), high: minus(sum.high, limits.low) },
    { low: zero, high: zero },
  );

/**
 * The least and the most that two planes can lie apart, the limits of every length between them at their worst: the tolerance
 * stack. Exact; null where the lengths do not lead from one to the other.
 */
export function spanOf(given: readonly GivenLength[], left: number, right: number): Limits | null {
  const way = waysAlong(given)(left, right);
  return way.length === 0 ? null : stackOf(way);
}

/** The first length that follows from others already, and those that it follows from. */
function givenTwice(given: readonly GivenLength[]): ChainFault | null {
  /** Planes that lengths join so far have one number. */
  const joined = Array.from({ length: given.length + 1 }, (_, plane) => plane);
  const tree: GivenLength[] = [];
  for (const each of given) {
    const [one, other] = [joined[each.left], joined[each.right]];
    if (one === other) {
      const by = waysAlong(tree)(each.left, each.right).map((step) => step.given.feature);
      return { key: 'given-twice', feature: each.feature, by: by.sort((a, b) => a - b) };
    }
    joined.forEach((number, plane) => void (number === other ? (joined[plane] = one ?? plane) : null));
    tree.push(each);
  }
  return null;
}

/**
 * What each feature is long between its own two ends: as given, or by the chain of lengths with its tolerance stack at its worst.
 * A length that follows from others already is refused, and one that its limits may bring to nothing.
 */
export function ownLengths(features: readonly Linked[]): Result<readonly Limits[], ChainFault> {
  const missing = features.findIndex(({ length, datum }) => length === null && datum === null);
  if (missing >= 0) return fail({ key: 'no-length', feature: missing });
  const given = givenLengths(features);
  if (!features.some(isFaced)) return ok(given.map(({ limits }) => limits));
  // What is given from a face is held against the plain lengths, so that it is the one that is named.
  const faced = given.map(({ feature }) => features[feature] !== undefined && isFaced(features[feature]));
  const twice = givenTwice([...given.filter((_, at) => faced[at] !== true), ...given.filter((_, at) => faced[at] === true)]);
  if (twice !== null) return fail(twice);
  const way = waysAlong(given);
  const lengths: Limits[] = [];
  for (const feature of features.keys()) {
    // As many lengths as features and none twice, so every plane is reached.
    const own = stackOf(way(feature, feature + 1));
    if (own.low <= 0) return fail({ key: 'nothing-left', feature, least: own.low });
    lengths.push(own);
  }
  return ok(lengths);
}
