import { readFileSync } from 'node:fs';
import { nanometres } from '../../src/measure/index.ts';
import type { EventBody, JobEvent } from '../../src/job/index.ts';
import { readJobFile, type JobFile } from '../../src/shelf/index.ts';

/** The golden file of version 1: every kind of event once. Never edit it; a later version gets a folder of its own. */
export const goldenText: string = readFileSync(new URL('../fixtures/job-files/v1/axle.job.json', import.meta.url), 'utf8');

export function read(text: string): JobFile {
  const file = readJobFile(text);
  if (!file.ok) throw new Error(`the sample does not read: ${JSON.stringify(file.error)}`);
  return file.value;
}

export const golden: JobFile = read(goldenText);
export const plan = golden.plan;

/** An event in the shape of the log: reading number `seq`, one tenth smaller each time. */
export function reading(seq: number, id = `e-${seq}`, at = 1_750_000_000_000 + seq): JobEvent {
  const body: EventBody = {
    type: 'ReadingLogged', operation: 'finish-journal', quantity: 'diameter', value: nanometres(16_000_000 - 2_540 * (seq % 1000)),
    instrument: 'micrometer', place: null, words: `reading ${seq}`, confirmed: false,
  };
  return { id, seq, at, v: 1, body };
}
