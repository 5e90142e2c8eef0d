/**
 * What the person says in the set-up, two minutes: numbers of every form, the commands that are said most, and nearly every sound
 * of the vocabulary. Each is a phrase of the phrasebook.
 */
export const SETUP_PHRASES = [
  'next',
  'how much left',
  'reads six twenty seven',
  'one point three one two five',
  'scratch that',
  'what do i dial',
  'took ten thou',
  'five eighths',
  'where am i',
  'reads nineteen point oh five',
  'go to step four',
  'make that eight thirty two and a half',
  'yes',
  'no',
  'touched off',
  'binds at the shoulder',
  "what's next",
  'jaw three two thou',
  'stop listening',
  'done',
] as const;
