import type { z } from 'zod';
import { fail, ok, type Result } from '../measure/index.ts';

/**
 * What is wrong in a file, and where. `path` is the way from the top; `place` names the nearest thing a person would know
 * (`operation "rough-cam"`), or is null where nothing on the way has a name; `says` is what is wrong there.
 */
export type FileProblem = { readonly path: readonly (string | number)[]; readonly place: string | null; readonly says: string };

/** What one member of a list is called, by the list's name in the file. */
const MEMBERS: ReadonlyMap<string, string> = new Map([
  ['operations', 'operation'],
  ['setups', 'set-up'],
  ['machines', 'machine'],
  ['mates', 'mate'],
  ['turned', 'feature'],
  ['ends', 'end feature'],
  ['edges', 'edge'],
  ['milled', 'milled feature'],
]);

function memberOf(json: unknown, step: string | number): unknown {
  if (typeof json !== 'object' || json === null || !Object.hasOwn(json, step)) return undefined;
  return (json as Readonly<Record<string | number, unknown>>)[step];
}

/**
 * Names the operation, feature, mate, machine or set-up that a path in a file leads into: by its name or title where it has
 * one, else by its id, else by its place in the list, from 1. The innermost wins; null where the path leads into none.
 */
export function placeName(json: unknown, path: readonly (string | number)[]): string | null {
  let at = json;
  let place: string | null = null;
  path.forEach((step, index) => {
    at = memberOf(at, step);
    const list = path[index - 1];
    const member = typeof step === 'number' && typeof list === 'string' ? MEMBERS.get(list) : undefined;
    if (member === undefined || typeof step !== 'number') return;
    const called = [memberOf(at, 'name'), memberOf(at, 'title'), memberOf(at, 'id')].find(
      (text) => typeof text === 'string' && text.trim() !== '',
    );
    place = typeof called === 'string' ? `${member} "${called}"` : `${member} ${step + 1}`;
  });
  return place;
}

type Path = readonly (string | number)[];

const pathOf = ({ path }: z.core.$ZodIssue): Path => path.map((step) => (typeof step === 'number' ? step : String(step)));

/**
 * The first thing that a schema found wrong in what is written, else the first that is not written at all: what follows from
 * something that is wrong is missing too. Its place is named from the file itself.
 */
export function firstProblem(error: z.ZodError, json: unknown): FileProblem {
  const missing = (issue: z.core.$ZodIssue): boolean =>
    issue.code === 'invalid_type' && pathOf(issue).reduce(memberOf, json) === undefined;
  const issue = error.issues.find((one) => !missing(one)) ?? error.issues[0];
  if (issue === undefined) return { path: [], place: null, says: 'cannot be read' };
  const path = pathOf(issue);
  return { path, place: placeName(json, path), says: missing(issue) ? 'is missing' : issue.message };
}

/** One line: `feature "Tracking cam", turned[0].length: the low limit is above the high limit`. */
export function describeFileProblem({ path, place, says }: FileProblem): string {
  const way = path.map((step, index) => (typeof step === 'number' ? `[${step}]` : index === 0 ? step : `.${step}`)).join('');
  const where = [place, way === '' ? null : way].filter((text) => text !== null).join(', ');
  return where === '' ? says : `${where}: ${says}`;
}

/** Reads JSON that was already parsed by a schema of this house. */
export function readBy<T>(schema: z.ZodType<T>, json: unknown): Result<T, FileProblem> {
  const read = schema.safeParse(json);
  return read.success ? ok(read.data) : fail(firstProblem(read.error, json));
}
