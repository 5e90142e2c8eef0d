import { readFileSync } from 'node:fs';
import { planSchema, type Plan } from '../../src/job/index.ts';

export const DEMOS = ['inch', 'metric'] as const;
export type Demo = (typeof DEMOS)[number];

/** The plan of a demo job as it stands in its file, before it is read. */
export function demoJson(demo: Demo): unknown {
  const file = JSON.parse(readFileSync(new URL(`../../src/shelf/demos/${demo}.job.json`, import.meta.url), 'utf8')) as { readonly plan: unknown };
  return file.plan;
}

export const demoPlan = (demo: Demo): Plan => planSchema.parse(demoJson(demo));

/** JSON with the value at a path replaced; `undefined` takes it out. */
export function changed(json: unknown, [step, ...rest]: readonly (string | number)[], to: unknown): unknown {
  if (step === undefined) return to;
  if (Array.isArray(json)) {
    const members = json.map((member, index) => (index === step ? changed(member, rest, to) : member) as unknown);
    return members.filter((member) => member !== undefined);
  }
  const group = json as Record<string, unknown>;
  return { ...group, [step]: changed(group[step], rest, to) };
}
