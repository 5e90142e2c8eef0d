/** An expected failure is a value: `ok` tells which, and the type checker makes the caller look. */
export type Result<T, E> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: E };

export const ok = <T>(value: T): Result<T, never> => ({ ok: true, value });
export const fail = <E>(error: E): Result<never, E> => ({ ok: false, error });

/** Throws when one of our own invariants is broken: a bug of ours, never the user's doing. */
export function assert(condition: boolean, invariant: string): asserts condition {
  if (!condition) throw new Error(`Broken invariant: ${invariant}`);
}
