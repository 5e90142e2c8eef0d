import { nanometres, type Length } from '../measure/index.ts';
import { asLength, combined, proofOf, type Clearances, type Estimate } from '../trade/index.ts';

/**
 * A length of a stack from face to face as it was read, with its standard uncertainty in nm. `toFace` is how much may still be
 * faced off it; nothing where it is left as it is.
 */
export type StackLength = {
  readonly name: string;
  readonly read: Length;
  readonly spread: number;
  readonly direction: 'makes-room' | 'fills-room';
  readonly toFace: Length;
};

/** The end play that the lengths leave: their sum with its sign, uncertainties added as squares (GUM 5.1.2). */
export const playOf = (stack: readonly StackLength[]): Estimate => ({
  mean: stack.reduce((sum, { read, direction }) => sum + (direction === 'makes-room' ? read : -read), 0),
  spread: combined(stack.map(({ spread }) => spread)),
});

/** So much to come off one face. */
export type Facing = { readonly name: string; readonly by: Length };

/**
 * What the play asks for: nothing; these faces, in this order; a shim, where no face has as much to give; or the length that is
 * known worst read again, where the play cannot be told.
 */
export type PlayAdvice =
  | { readonly kind: 'right' }
  | { readonly kind: 'face'; readonly faces: readonly Facing[] }
  | { readonly kind: 'out-of-reach'; readonly short: Length }
  | { readonly kind: 'read-again'; readonly name: string };

/** From a value to the middle of what is wanted, nm. */
const offMiddle = (mean: number, { least, most }: Clearances): number => mean - (least + most) / 2;

/**
 * Which face to take to get the play wanted. Facing what fills the room opens the play, facing what makes it closes it. A
 * face that can give all of it goes before two that must share it, and among those the length that is known best: it stays
 * known best. Right is what ISO 14253-1 proves with U = 2·u, or what lies in the limits where no instrument here can prove
 * it.
 */
export function faceFor(stack: readonly StackLength[], wanted: Clearances): PlayAdvice {
  const { mean, spread } = playOf(stack);
  const limits = { low: wanted.least, high: wanted.most };
  const play = asLength(mean, 'half-even');
  const proof = proofOf(play, limits, asLength(2 * spread, 'ceiling'));
  if (proof === 'conforms') return { kind: 'right' };
  const worst = stack.reduce<StackLength | null>((top, one) => (top === null || one.spread > top.spread ? one : top), null);
  if (proof === 'not-proven' && worst !== null && 4 * spread > wanted.most - wanted.least)
    return play >= wanted.least && play <= wanted.most ? { kind: 'right' } : { kind: 'read-again', name: worst.name };
  const off = offMiddle(mean, wanted);
  const needed = Math.abs(off);
  const giving = stack
    .filter(({ direction, toFace }) => toFace > 0 && direction === (off < 0 ? 'fills-room' : 'makes-room'))
    .sort((a, b) => Number(b.toFace >= needed) - Number(a.toFace >= needed) || a.spread - b.spread);
  const faces: Facing[] = [];
  let left = needed;
  for (const { name, toFace } of giving) {
    if (left <= 0) break;
    const by = asLength(Math.min(left, toFace), 'half-even');
    faces.push({ name, by });
    left -= by;
  }
  return left > 0.5 ? { kind: 'out-of-reach', short: nanometres(Math.round(left)) } : { kind: 'face', faces };
}
