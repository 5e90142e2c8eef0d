/**
 * How the coach does against a plain rule on simulated journals: share in the window and under size, cuts, readings, wrong
 * acceptances, by kind of machine and of slip. Arguments by environment: `JOURNALS` (10000), `FIRST_SEED` (7000000).
 */
import { byCoach, byPlainRule, journalOf, MACHINE_KINDS, tallyOf, type Outcome } from '../../tests/coach/machine/index.ts';

const count = Number(process.env['JOURNALS'] ?? 10_000);
const first = Number(process.env['FIRST_SEED'] ?? 7_000_000);

/** The plain rule as it is compared, and two variants: near at half of that, and dialling all that is left until near. */
const RULES = [
  { name: 'plain rule: to 0.25 mm, then halves', nearUm: 250, careful: true },
  { name: 'the same from 0.5 mm', nearUm: 500, careful: true },
  { name: 'the same from 0.125 mm', nearUm: 125, careful: true },
  { name: 'all that is left until 0.25 mm, then halves', nearUm: 250, careful: false },
] as const;

const percent = (share: number, places = 2): string => `${(100 * share).toFixed(places)} %`;
const write = (line: string): void => void process.stdout.write(`${line}\n`);

function row(name: string, outcomes: readonly Outcome[]): void {
  const tally = tallyOf(outcomes);
  const cells = [
    name,
    String(tally.journals),
    percent(tally.inWindow),
    percent(tally.under),
    percent(tally.over),
    percent(tally.accepted),
    percent(tally.wronglyAccepted),
    percent(tally.undecided),
    tally.cuts.toFixed(2),
    tally.readings.toFixed(2),
    tally.rounds.toFixed(2),
  ];
  write(`| ${cells.join(' | ')} |`);
}

const HEAD = [
  '',
  'journals',
  'in the window',
  'under',
  'over',
  'accepted',
  'wrongly accepted',
  'undecided',
  'cuts',
  'readings',
  'filing rounds',
];
function head(title: string): void {
  write(`\n#### ${title}\n`);
  write(`| ${HEAD.join(' | ')} |`);
  write(`|${' --- |'.repeat(HEAD.length)}`);
}

const seeds = Array.from({ length: count }, (_, index) => first + index);
const coach = seeds.map((seed) => byCoach(journalOf(seed)));
const plain = RULES.map(({ name, nearUm, careful }) => ({
  name,
  outcomes: seeds.map((seed) => byPlainRule(journalOf(seed), nearUm, careful)),
}));
const main = plain[0]?.outcomes ?? [];

head('All journals');
row('coach', coach);
for (const { name, outcomes } of plain) row(name, outcomes);

// The same journals meet both: the difference of each pair, and its interval (1.96 standard errors).
const more = coach.map(({ readings }, index) => readings - (main[index]?.readings ?? 0));
const mean = more.reduce((sum, one) => sum + one, 0) / more.length;
const error = Math.sqrt(more.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (more.length - 1) / more.length);
write(`\nReadings, coach less plain: ${mean.toFixed(3)} (${(mean - 1.96 * error).toFixed(3)} to ${(mean + 1.96 * error).toFixed(3)})`);

head('By machine');
for (const { name } of MACHINE_KINDS) {
  row(
    `${name}: coach`,
    coach.filter(({ kind }) => kind === name),
  );
  row(
    `${name}: plain`,
    main.filter(({ kind }) => kind === name),
  );
}

head('By slip (journals in which it happened)');
row(
  'none: coach',
  coach.filter(({ slips }) => slips.length === 0),
);
row(
  'none: plain',
  main.filter(({ slips }) => slips.length === 0),
);
for (const slip of [
  'twice',
  'half',
  'ten-more',
  'ten-less',
  'turn-more',
  'turn-less',
  'thimble-turn',
  'before-the-cut',
  'wrong-place',
  'slack',
  'warm',
] as const) {
  row(
    `${slip}: coach`,
    coach.filter(({ slips }) => slips.includes(slip)),
  );
  row(
    `${slip}: plain`,
    main.filter(({ slips }) => slips.includes(slip)),
  );
}
