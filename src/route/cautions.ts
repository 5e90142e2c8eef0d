import { PRESSING_CAUTION } from '../trade/index.ts';
import type { CautionKey } from './operation.ts';

/**
 * The usual caution of a hazardous operation. `shown` is the text on the screen, `say` the short spoken line. Both are a
 * reminder for a trained person; the machine's manual, the local rules and qualified instruction come before them.
 */
export type Caution = { readonly shown: string; readonly say: string; readonly source: string };

/** Said before any reading is asked for. */
export const STOP_FIRST: Caution = {
  shown: 'Spindle stopped and the motor off before any reading. Never measure or reach into moving work.',
  say: 'Spindle stopped before any reading',
  source: 'common practice; OSHA 1910.212(a)(1) asks for guarding of the operator in general and has no rule for lathe chucks (letter of 26 January 1979)',
};

/** Shown under every caution. */
export const DEFERS_TO = "The machine's manual, your local rules and qualified instruction come first. This page is no safety device.";

/** By key, so that a route names the caution and never carries its own wording. */
export const CAUTIONS: Readonly<Record<CautionKey, Caution>> = {
  'chuck-key': {
    shown: 'Take the key out of the chuck before the hand leaves it. Turn the chuck by hand once round: everything clears. Stand out of line at the start.',
    say: 'Key out of the chuck, once round by hand',
    source: 'trade teaching: never leave the key in the chuck',
  },
  'lathe-filing': {
    shown: 'File left-handed, with a handle on the file, carriage well back. Sleeves rolled tight, no gloves, rings or watch. Spindle stopped to measure.',
    say: 'File left-handed, handle on, sleeves tight',
    source: 'Walker, Modern Metalworking, p. 454; gloves: HSE information sheet EIS2',
  },
  'abrasive-cloth': {
    shown: 'Never hold abrasive cloth on turning work by hand or wrap it round. Use a holder or a flat backing board, no gloves, and keep it clear of the jaws.',
    say: 'Cloth on a backing board, never by hand',
    source: 'HSE information sheet EIS2 and its answers to questions; UK MCA Safety Bulletin 21',
  },
  parting: {
    shown: 'Never part off between centres. Tailstock back, tool square and on centre, part close to the chuck, slow speed. Do not catch the piece by hand.',
    say: 'Tailstock back, slow, hands clear of the piece',
    source: 'trade teaching: never part off between centres',
  },
  pressing: {
    shown: PRESSING_CAUTION,
    say: 'Guard up, nobody in line. Hot metal',
    source: 'trade teaching; the temper of the steel: common practice, no source',
  },
  'out-of-balance': {
    shown: 'The work is off centre: its force grows with the square of the speed. Turn it by hand once round, start at the slowest speed, add a counterweight if the machine shakes.',
    say: 'Out of balance. Start slow',
    source: 'F = m r w^2; trade teaching: start slow, counterweight',
  },
  milling: {
    shown: 'Work clamped, cutter tight, guard in place, eye protection. Stop the spindle to clear chips: with a brush, not the hand. No gloves near the cutter.',
    say: 'Work clamped. Brush, not hands',
    source: 'gloves: HSE information sheet EIS2; brush, not hands: trade teaching',
  },
  drilling: {
    shown: 'Ease off as the drill breaks through or binds. Draw it out often. Long chips are cleared with the spindle stopped: with a brush or a hook, not the hand.',
    say: 'Clear the chips often, never by hand',
    source: 'trade teaching: brush, not hands',
  },
  tapping: {
    shown: 'Spindle stopped and out of gear when the tap is turned by hand. Keep the wrench clear of the bed, back the tap off to break the chip.',
    say: 'Spindle stopped. Back the tap off as you go',
    source: 'common practice, no source',
  },
  'protruding-stock': {
    shown: 'Bar that stands out behind the headstock is covered and supported along its length. It whips when it turns unsupported.',
    say: 'Cover the bar behind the headstock',
    source: 'trade teaching: cover protruding stock',
  },
};
