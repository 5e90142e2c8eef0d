export { journalOf, outcomeOf, type Journal, type Outcome, type Verdict } from './journal.ts';
export { byPlainRule } from './plainRule.ts';
export { byCoach } from './coachRule.ts';
export { MACHINE_KINDS, type MachineKind } from './kinds.ts';
export { SLIP_RATES, type SlipKind } from './person.ts';
export { tallyOf, type Tally } from './tally.ts';
export { chanceFrom, type Chance } from './random.ts';
