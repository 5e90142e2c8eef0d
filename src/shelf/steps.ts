import { assert } from '../measure/index.ts';
import { PART_STEPS } from '../part/index.ts';
import { isObject, type Json, type JsonObject } from './json.ts';

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

/** The list under a name, each group in it changed; what is no list is left for the schema to refuse. */
const eachIn = (group: JsonObject, name: string, change: (one: JsonObject) => JsonObject): JsonObject => {
  const list = group[name];
  return Array.isArray(list)
    ? { ...group, [name]: (list as readonly Json[]).map((one) => (isObject(one) ? change(one) : one)) }
    : group;
};

/** What a version did not have yet, as its absence was meant; what is there stays. */
const filled =
  (absent: JsonObject) =>
  (group: JsonObject): JsonObject => ({
    ...group,
    ...Object.fromEntries(Object.entries(absent).filter(([name]) => !Object.hasOwn(group, name))),
  });

const operationOfTwo = (operation: JsonObject): JsonObject => {
  const { cut } = operation;
  const whole = filled({ before: [], why: [], alternatives: [], angle: null, coordinates: [] })(operation);
  return isObject(cut) ? { ...whole, cut: filled({ last: null, spring: false })(cut) } : whole;
};

/**
 * From 1 to 2: a plan holds a part of version 2, set-ups say why and what else would do, and operations what must be true
 * before, why, the angle, the places on the readout, and how a cut ends. Each is written down as version 1 meant its absence,
 * so that no later change of what absence means can reach back.
 */
function planOfTwo(json: Json): Json {
  if (!isObject(json)) return json;
  const { part, route } = json;
  const carried = PART_STEPS.filter(({ from }) => from === 1).reduce<unknown>((older, step) => step.change(older), part ?? null);
  return {
    ...json,
    ...(part === undefined ? {} : { part: carried as Json }),
    ...(isObject(route)
      ? { route: eachIn(eachIn(route, 'setups', filled({ why: [], alternatives: [] })), 'operations', operationOfTwo) }
      : {}),
  };
}

/** From each version of a plan (the version of the file that held it) to the next. */
export const PLAN_STEPS: readonly Step[] = [{ from: 1, change: planOfTwo }];
export const FILE_VERSION = PLAN_STEPS.length + 1;
