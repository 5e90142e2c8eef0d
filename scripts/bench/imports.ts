/**
 * Ten thousand damaged, truncated, oversized and hostile imports: good files fuzzed with a seed, each read, and taken in where it
 * still reads. Counts crashes, changes to a job stored before, and messages that name no place. Run: npm run bench -- imports;
 * by itself: npx tsx scripts/bench/imports.ts [--files N] [--seed N]
 */
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { describeFileFault, memoryShelf, MOST_FILE_LENGTH, readJobFile, tooLarge, type JobFile } from '../../src/shelf/index.ts';
import { damaged, PLACE, WHAT_TO_DO } from '../../tests/shelf/damage.ts';
import { seeded } from '../../tests/seeded.ts';
import { golden, goldenText } from '../../tests/shelf/sample.ts';
import { root } from '../setup/root.mjs';

const { values: options } = parseArgs({
  options: { files: { type: 'string', default: '10000' }, seed: { type: 'string', default: '5' } },
});
const demo = (name: string): string => readFileSync(`${root}/src/shelf/demos/${name}.job.json`, 'utf8');
const good = [goldenText, demo('inch'), demo('metric')];
const pick = seeded(Number(options.seed));
const count = Number(options.files);

/** What was stored first, wherever it stands now: a file may add events to a job by merging, but change and lose none. */
function kept(file: JobFile): string {
  const first = new Set(golden.events.map(({ id }) => id));
  const events = file.events.filter(({ id }) => first.has(id)).map((event) => ({ ...event, seq: 0 }));
  return JSON.stringify({ plan: file.kept.plan, events });
}
const shelf = memoryShelf(() => 0);
await shelf.take(golden, { newId: 'unused', at: 0 });

const keys = new Map<string, number>();
const seen = { refused: 0, taken: 0, crashed: 0, changed: 0, withoutPlace: 0 };
/** What is larger or deeper than any job: few, since each is a hundred million characters. */
const OUTSIZE = [
  () => `{"format":"swarfside-job","x":"${'a'.repeat(MOST_FILE_LENGTH)}"}`,
  () => '['.repeat(MOST_FILE_LENGTH),
  () => `${' '.repeat(MOST_FILE_LENGTH)}{}`,
];

for (let number = 0; number < count; number += 1) {
  const outsize = number < OUTSIZE.length ? OUTSIZE[number] : undefined;
  const text = outsize?.() ?? damaged(good[pick(good.length)] ?? goldenText, pick);
  try {
    const oversize = tooLarge(text.length);
    const file = oversize === null ? readJobFile(text) : ({ ok: false, error: oversize } as const);
    if (file.ok) {
      seen.taken += 1;
      const taken = await shelf.take(file.value, { newId: `copy-${number}`, at: 0 });
      if (!taken.ok) seen.crashed += 1;
    } else {
      seen.refused += 1;
      keys.set(file.error.key, (keys.get(file.error.key) ?? 0) + 1);
      const line = describeFileFault(file.error, 'axle.json');
      if (!PLACE.test(line) || !WHAT_TO_DO.test(line)) {
        seen.withoutPlace += 1;
        process.stdout.write(`${line}\n`);
      }
    }
  } catch (error) {
    seen.crashed += 1;
    process.stdout.write(`file ${number}: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`);
  }
  if (number % 100 !== 99) continue;
  const copy = await shelf.copy('golden-axle-1');
  if (!copy.ok || kept(copy.value) !== kept(golden)) seen.changed += 1;
}
process.stdout.write(
  `${count} files (seed ${options.seed}): ${seen.refused} refused, ${seen.taken} read, ${seen.crashed} crashed, ` +
    `${seen.changed} times a stored job was changed, ${seen.withoutPlace} messages without a place\n` +
    `refused as: ${[...keys].map(([key, times]) => `${key} ${times}`).join(', ')}\n`,
);
process.exitCode = seen.crashed + seen.changed + seen.withoutPlace === 0 ? 0 : 1;
