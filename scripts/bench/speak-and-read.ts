/**
 * Says every size of both grids and reads it back: .0001 in from 0 to 12 in, .005 mm from 0 to 300 mm, each in a context that
 * expects it and in one that expects nothing. Prints the misses, the questions and the time.
 * Run: npx tsx scripts/bench/speak-and-read.ts
 */
import type { Context } from '../../src/job/index.ts';
import { inches, millimetres, nanometres, type DisplayUnit, type Length } from '../../src/measure/index.ts';
import { readNumber, resolveLength, sizeWords } from '../../src/phrasebook/index.ts';

const print = (line: string): void => void process.stdout.write(`${line}\n`);

const GRIDS: readonly {
  readonly unit: DisplayUnit;
  readonly step: number;
  readonly last: number;
  readonly half: Length;
  readonly largest: Length;
}[] = [
  { unit: 'inch', step: 2_540, last: 120_000, half: inches(0.002), largest: inches(12) },
  { unit: 'millimetre', step: 5_000, last: 60_000, half: millimetres(0.05), largest: millimetres(300) },
];

const blank = (unit: DisplayUnit, largest: Length): Context => ({
  unit,
  awaited: 'diameter',
  window: null,
  from: null,
  last: null,
  largest,
  instrument: null,
  ownSteps: {},
  steps: 20,
  asked: false,
  now: 0,
});

const expecting = (blankContext: Context, value: Length, half: Length): Context => ({
  ...blankContext,
  window: { low: nanometres(Math.max(0, value - half)), high: nanometres(value + half), aim: value },
  from: nanometres(value + 10 * half),
});

let failed = false;
for (const { unit, step, last, half, largest } of GRIDS) {
  const started = performance.now();
  for (const kind of ['expected', 'nothing expected'] as const) {
    let misses = 0;
    let questions = 0;
    for (let index = 0; index <= last; index += 1) {
      const value = nanometres(index * step);
      const bare = blank(unit, largest);
      const context = kind === 'expected' ? expecting(bare, value, half) : bare;
      const words = sizeWords(value, unit);
      const read = resolveLength(readNumber(words, 'size', unit), 'size', context);
      if (read.as === 'one' && read.value === value) continue;
      if (read.as === 'either' && read.values.includes(value)) {
        questions += 1;
        if (questions <= 5) print(`  asked: ${words.join(' ')} → ${read.values.join(' or ')} nm`);
        continue;
      }
      misses += 1;
      if (misses <= 5) print(`  missed: ${value} nm, "${words.join(' ')}" → ${JSON.stringify(read)}`);
    }
    failed ||= misses > 0;
    print(`${unit}, ${kind}: ${last + 1} values, ${misses} misses, ${questions} questions`);
  }
  print(`${unit}: ${((performance.now() - started) / 1000).toFixed(1)} s`);
}
process.exitCode = failed ? 1 : 0;
