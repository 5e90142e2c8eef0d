import { assert } from '../measure/index.ts';
import type { Json } from './json.ts';

/** Carries stored JSON from one version to the next. A step is never changed once a build that wrote the later version is out. */
export type Step = { readonly from: number; readonly change: (json: Json) => Json };

/**
 * Carries JSON from `version` to the newest. Invariant, checked here: the steps run from 1 to the newest without a gap, so
 * every version that was ever written has a way forward.
 */
export function carriedForward(json: Json, version: number, steps: readonly Step[]): Json {
  steps.forEach((step, index) => assert(step.from === index + 1, `step ${index + 1} starts from version ${index + 1}, got ${step.from}`));
  assert(version >= 1 && version <= steps.length + 1, `version ${version} is between 1 and ${steps.length + 1}`);
  return steps.slice(version - 1).reduce((carried, step) => step.change(carried), json);
}

/** From each version of an event to the next; empty while version 1 is the newest. */
export const EVENT_STEPS: readonly Step[] = [];
export const EVENT_VERSION = EVENT_STEPS.length + 1;

/** From each version of a plan (the version of the file that held it) to the next; empty while version 1 is the newest. */
export const PLAN_STEPS: readonly Step[] = [];
export const FILE_VERSION = PLAN_STEPS.length + 1;
