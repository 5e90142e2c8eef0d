import { dividedBy, minus, plus, type Diameter, type Length } from '../measure/index.ts';
import { packingPiece, packingPieceFlatJaws, throwOfPacking } from '../trade/index.ts';

/** How the jaws of a three-jaw chuck meet the bar: at a line each, or wide and flat. */
export type JawFaces = 'point' | 'flat';

/** The packing piece under one jaw for a throw. */
export const packingFor = (bar: Diameter, offset: Length, faces: JawFaces): Length =>
  faces === 'flat' ? packingPieceFlatJaws(offset) : packingPiece(bar, offset);

/**
 * The piece to make instead, from what the indicator really showed with the first one: thicker by what the missing throw takes.
 * By differences of the same formula, so that what the jaws do besides cancels.
 */
export function packingAgain(bar: Diameter, packed: Length, wantedThrow: Length, shownRange: Length): Length {
  const got = dividedBy(shownRange, 2, 'half-even');
  return plus(packed, minus(packingPiece(bar, wantedThrow), packingPiece(bar, got)));
}

/** The throw that a piece at hand gives. */
export const throwFor = (bar: Diameter, packed: Length): Length => throwOfPacking(bar, packed);
