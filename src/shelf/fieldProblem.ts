import type { z } from 'zod';
import { fail, ok, type Result } from '../measure/index.ts';
import { isObject, valueAt, type Json, type Path } from './json.ts';

/** What is wrong with one value of a file. The sentence is made by `describeFieldProblem`. */
export type FieldProblem =
  | { readonly key: 'missing' }
  | { readonly key: 'wrong-kind'; readonly expected: string; readonly got: string }
  | { readonly key: 'not-one-of'; readonly allowed: readonly string[]; readonly got: string }
  | { readonly key: 'out-of-range'; readonly of: 'value' | 'length' | 'count'; readonly bound: 'least' | 'most'; readonly limit: number; readonly inclusive: boolean; readonly got: string }
  | { readonly key: 'as-the-schema-says'; readonly says: string; readonly got: string };

export type Misfit = { readonly path: Path; readonly problem: FieldProblem };

/** What a value looks like in a message: short, and its kind where the value itself would not fit in a line. */
export function glimpse(json: Json | undefined): string {
  if (json === undefined) return 'nothing';
  if (Array.isArray(json)) return 'a list';
  if (isObject(json)) return 'a group of fields';
  const text = JSON.stringify(json);
  return text.length <= 60 ? text : `${text.slice(0, 57)}…`;
}

function problemOf(issue: z.core.$ZodIssue, got: Json | undefined): FieldProblem {
  if (got === undefined) return { key: 'missing' };
  switch (issue.code) {
    case 'invalid_type':
      return { key: 'wrong-kind', expected: issue.expected, got: glimpse(got) };
    case 'invalid_value':
      return { key: 'not-one-of', allowed: issue.values.map(String), got: glimpse(got) };
    case 'too_small':
    case 'too_big': {
      const of = issue.origin === 'string' ? 'length' : issue.origin === 'array' ? 'count' : 'value';
      const [bound, limit] = issue.code === 'too_small' ? (['least', issue.minimum] as const) : (['most', issue.maximum] as const);
      return { key: 'out-of-range', of, bound, limit: Number(limit), inclusive: issue.inclusive !== false, got: glimpse(got) };
    }
    case 'invalid_union':
      return 'options' in issue && Array.isArray(issue.options)
        ? { key: 'not-one-of', allowed: issue.options.map(String), got: glimpse(got) }
        : { key: 'as-the-schema-says', says: issue.message, got: glimpse(got) };
    case 'invalid_format':
    case 'not_multiple_of':
    case 'unrecognized_keys':
    case 'invalid_key':
    case 'invalid_element':
    case 'custom':
      return { key: 'as-the-schema-says', says: issue.message, got: glimpse(got) };
  }
}

const stepsOf = (path: readonly PropertyKey[]): Path => path.map((step) => (typeof step === 'number' ? step : String(step)));

/**
 * Reads JSON by a strict schema, but lets fields that the schema does not know pass: they are named in `unknownFields` and are
 * not in the value. The caller keeps the JSON itself, so that they are not lost. `base` is put before every path.
 */
export function readKeepingUnknown<T>(
  schema: z.ZodType<T>,
  json: Json,
  base: Path,
): Result<{ readonly value: T; readonly unknownFields: readonly Path[] }, Misfit> {
  let candidate = json;
  const unknownFields: Path[] = [];
  for (;;) {
    const read = schema.safeParse(candidate);
    if (read.success) return ok({ value: read.data, unknownFields });
    const surplus = read.error.issues.filter((issue) => issue.code === 'unrecognized_keys');
    const wrong = read.error.issues.find((issue) => issue.code !== 'unrecognized_keys');
    if (wrong !== undefined) {
      const path = stepsOf(wrong.path);
      return fail({ path: [...base, ...path], problem: problemOf(wrong, valueAt(json, path)) });
    }
    // The schema's own cross-checks run only once the surplus is gone, so it is read again without it.
    const without = structuredClone(candidate);
    for (const issue of surplus) {
      const path = stepsOf(issue.path);
      const holder = valueAt(without, path);
      for (const name of issue.keys) {
        unknownFields.push([...base, ...path, name]);
        if (isObject(holder)) Reflect.deleteProperty(holder, name);
      }
    }
    candidate = without;
  }
}

const KINDS: Readonly<Record<string, string>> = {
  string: 'text in double quotes', number: 'a number', int: 'a whole number', boolean: 'true or false', object: 'a group of fields in { }',
  array: 'a list in [ ]', null: 'null',
};

/** The problem in words, without where it is: "is missing", "must be one of …, not …". */
export function describeFieldProblem(problem: FieldProblem): string {
  switch (problem.key) {
    case 'missing':
      return 'is missing';
    case 'wrong-kind':
      return `must be ${KINDS[problem.expected] ?? problem.expected}, not ${problem.got}`;
    case 'not-one-of':
      return problem.allowed.length === 1
        ? `must be ${problem.allowed[0]}, not ${problem.got}`
        : `must be one of ${problem.allowed.join(', ')}; it is ${problem.got}`;
    case 'out-of-range': {
      const { of, bound, limit, inclusive, got } = problem;
      const compared = bound === 'least' ? (inclusive ? 'at least' : 'more than') : inclusive ? 'at most' : 'less than';
      const unit = of === 'length' ? ` letter${limit === 1 ? '' : 's'} long` : of === 'count' ? ` entr${limit === 1 ? 'y' : 'ies'} long` : '';
      return `must be ${compared} ${limit}${unit}; it is ${got}`;
    }
    case 'as-the-schema-says':
      return problem.says.includes(problem.got) ? `is wrong: ${problem.says}` : `is ${problem.got}: ${problem.says}`;
  }
}
