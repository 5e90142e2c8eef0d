import type { ToolMaterial } from './cuttingData.ts';
import { dividedBy, micrometres, minus, thou, type Length } from '../measure/index.ts';

/**
 * What finish turning leaves on the diameter to be filed to a fit by hand: .002 to .003 in. Common practice, no source; F. D.
 * Jones, Turning and Boring, says only: enough to take the tool marks out.
 */
export const FILING_ALLOWANCE = { least: thou(2), most: thou(3) } as const;

/** What is left for polishing with cloth on a backing: half a thou to a thou. Common practice, no source. */
export const POLISHING_ALLOWANCE = { least: thou(0.5), most: thou(1) } as const;

/**
 * The thinnest cut on the diameter that a sharp tool takes and does not rub, about what its edge is round by and half as much
 * again: common practice, no source.
 */
export const THINNEST_CUT: Readonly<Record<ToolMaterial, Length>> = {
  'high-speed-steel': thou(1),
  'brazed-carbide': micrometres(40),
  carbide: micrometres(50),
};

/** Rounds of filing left, from what a round took so far on the average; rounded up by the caller. A real number. */
export const roundsLeft = (left: Length, perRound: Length): number => left / perRound;

/** What one round took on the average, from a size before and after so many rounds; toward zero, so that none is promised. */
export const perRound = (before: Length, after: Length, rounds: number): Length => dividedBy(minus(before, after), rounds, 'toward-zero');
