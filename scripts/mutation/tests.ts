import * as vitest from 'vitest';
import type { StandIns } from './sources.ts';

/** One test of a file, with the groups that it stands in. */
export type Test = { readonly name: string; readonly run: () => unknown };

type Rows = readonly (readonly unknown[] | object | string | number)[];
type Body = (...args: readonly unknown[]) => unknown;

/** Options may stand before the body, as the runner has it. */
const bodyOf = (args: readonly unknown[]): Body => {
  const body = args.find((arg): arg is Body => typeof arg === 'function');
  if (body === undefined) throw new Error('a test without a body');
  return body;
};

/**
 * The runner's `describe`, `test` and `expect` for modules that are evaluated here: tests are gathered into `found` and run by
 * whoever asks, without a process of their own.
 */
export function gathering(found: Test[]): StandIns {
  const groups: string[] = [];
  const named = (name: string): string => [...groups, name].join(' > ');
  const spread = (row: unknown): readonly unknown[] => (Array.isArray(row) ? row : [row]);
  const find = (name: string, run: () => unknown): void => void found.push({ name: named(name), run });
  const test = Object.assign((name: string, ...args: readonly unknown[]): void => find(name, bodyOf(args)), {
    each:
      (rows: Rows) =>
      (name: string, ...args: readonly unknown[]): void => {
        const body = bodyOf(args);
        rows.forEach((row, at) => find(`${name} ${at}`, () => body(...spread(row))));
      },
  });
  const describe = Object.assign(
    (name: string, body: () => void): void => {
      groups.push(name);
      body();
      groups.pop();
    },
    {
      each:
        (rows: Rows) =>
        (name: string, body: Body): void =>
          rows.forEach((row, at) => {
            groups.push(`${name} ${at}`);
            body(...spread(row));
            groups.pop();
          }),
    },
  );
  return { vitest: { ...vitest, describe, test, it: test } };
}
