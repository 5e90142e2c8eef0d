import type { Path } from './json.ts';
import type { Sliced } from './slices.ts';

/** Why a text is not JSON that we take in. `offset` counts UTF-16 units from 0; `path` is the value that was being read. */
export type JsonTextFault =
  | { readonly key: 'syntax'; readonly offset: number; readonly path: Path; readonly expected: string; readonly got: string }
  | { readonly key: 'too-deep'; readonly offset: number; readonly path: Path; readonly most: number }
  | { readonly key: 'number-too-large'; readonly offset: number; readonly path: Path; readonly got: string };

type Level = { readonly kind: 'object' | 'array'; key: string; index: number };
type Awaited = 'value' | 'value-or-end' | 'name' | 'name-or-end' | 'comma-or-end';

const EXPECTED: Readonly<Record<Awaited, string>> = {
  value: 'a value',
  'value-or-end': 'a value or "]"',
  name: 'a name in double quotes',
  'name-or-end': 'a name in double quotes or "}"',
  'comma-or-end': 'a comma or a closing bracket',
};
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][-+]?\d+)?/y;
const WORDS = ['true', 'false', 'null'] as const;
const SPACE = new Set([0x20, 0x09, 0x0a, 0x0d]);
const PLAIN_ESCAPES = new Set([...'"\\/bfnrt'].map((letter) => letter.charCodeAt(0)));

/**
 * The list that stands under a name at the top of a text, the last one where there are several: the offset of its opening
 * bracket (-1 where there is none), of each of its elements, and of its closing bracket.
 */
export type ListInText = { readonly name: string; from: number; starts: number[]; end: number };
export const listNamed = (name: string): ListInText => ({ name, from: -1, starts: [], end: -1 });

/** The text of one element of a list. */
export function elementText(text: string, list: ListInText, index: number): string {
  const from = list.starts[index] ?? list.end;
  let end = list.starts[index + 1] ?? list.end;
  while (text[end - 1] === ',' || SPACE.has(text.charCodeAt(end - 1))) end -= 1;
  return text.slice(from, end);
}

/** So many letters are looked at in a few milliseconds. */
const LETTERS_A_SLICE = 100_000;

/**
 * Looks through a text before it is given to `JSON.parse`: the first place where it stops being JSON (RFC 8259), nests deeper
 * than `deepest`, or holds a number that a double cannot hold; null where it is sound. It keeps no more than the open
 * brackets, so a hostile text costs one pass and no recursion. The engines' own messages do not all say where. `list` is filled
 * on the way.
 */
export function* findJsonFault(text: string, deepest: number, list: ListInText | null = null): Sliced<JsonTextFault | null> {
  const named = (key: string): boolean =>
    list !== null && (key === JSON.stringify(list.name) || (key.includes('\\') && JSON.parse(key) === list.name));
  let listed: Level | null = null;
  const levels: Level[] = [];
  let awaited: Awaited = 'value';
  let at = 0;
  let started = false;
  let stopAt = LETTERS_A_SLICE;

  const path = (): Path =>
    levels.flatMap((level): Path => (level.kind === 'array' ? [level.index] : level.key === '' ? [] : [JSON.parse(level.key) as string]));
  const wrong = (offset: number, expected: string): JsonTextFault => ({
    key: 'syntax', offset, path: path(), expected, got: glimpseOf(text, offset),
  });

  for (;;) {
    if (at >= stopAt) {
      stopAt = at + LETTERS_A_SLICE;
      yield;
    }
    while (SPACE.has(text.charCodeAt(at))) at += 1;
    const level = levels.at(-1);
    if (started && level === undefined) return at >= text.length ? null : wrong(at, 'nothing more after the closing bracket');
    if (at >= text.length) return wrong(text.length, EXPECTED[awaited]);
    const mark = text[at];

    if (level !== undefined && awaited !== 'value' && awaited !== 'name') {
      if ((mark === '}' && level.kind === 'object' && awaited !== 'value-or-end') || (mark === ']' && level.kind === 'array')) {
        levels.pop();
        if (list !== null && level === listed) list.end = at;
        awaited = 'comma-or-end';
        at += 1;
        continue;
      }
      if (awaited === 'comma-or-end') {
        if (mark !== ',') return wrong(at, EXPECTED['comma-or-end']);
        awaited = level.kind === 'object' ? 'name' : 'value';
        if (level.kind === 'array') level.index += 1;
        at += 1;
        continue;
      }
    }

    if (level !== undefined && (awaited === 'name' || awaited === 'name-or-end')) {
      if (mark !== '"') return wrong(at, EXPECTED[awaited]);
      const end = endOfString(text, at);
      if (end < 0) return wrong(-end, 'text closed by a double quote, without line breaks');
      level.key = text.slice(at, end);
      at = end;
      while (SPACE.has(text.charCodeAt(at))) at += 1;
      if (text[at] !== ':') return wrong(at, 'a colon');
      at += 1;
      awaited = 'value';
      continue;
    }

    started = true;
    if (list !== null && level !== undefined && level === listed) list.starts.push(at);
    const here = levels.length === 1 && level?.kind === 'object' && named(level.key);
    if (here && list !== null) [list.from, list.starts, listed] = [-1, [], null];
    if (mark === '{' || mark === '[') {
      if (levels.length >= deepest) return { key: 'too-deep', offset: at, path: path(), most: deepest };
      const opened: Level = { kind: mark === '{' ? 'object' : 'array', key: '', index: 0 };
      levels.push(opened);
      if (here && list !== null && mark === '[') [list.from, listed] = [at, opened];
      awaited = mark === '{' ? 'name-or-end' : 'value-or-end';
      at += 1;
      continue;
    }
    if (mark === '"') {
      const end = endOfString(text, at);
      if (end < 0) return wrong(-end, 'text closed by a double quote, without line breaks');
      at = end;
    } else {
      const word = WORDS.find((candidate) => text.startsWith(candidate, at));
      NUMBER.lastIndex = at;
      const number = word === undefined ? NUMBER.exec(text)?.[0] : undefined;
      if (word === undefined && number === undefined) return wrong(at, EXPECTED[awaited]);
      if (number !== undefined && !Number.isFinite(Number(number)))
        return { key: 'number-too-large', offset: at, path: path(), got: number.slice(0, 24) };
      at += (word ?? number ?? '').length;
    }
    awaited = 'comma-or-end';
  }
}

/** What stands at an offset, as far as it fits in a message: a few letters, not past the end of the line. */
function glimpseOf(text: string, offset: number): string {
  if (offset >= text.length) return 'the end of the file';
  const line = /^[^\r\n]*/.exec(text.slice(offset, offset + 12))?.[0] ?? '';
  return line === '' ? 'the end of the line' : JSON.stringify(line);
}

/** The offset after the closing quote of the string that opens at `start`; negative: minus the offset of what is wrong in it. */
function endOfString(text: string, start: number): number {
  let at = start + 1;
  for (;;) {
    const code = text.charCodeAt(at);
    if (code === 0x22) return at + 1;
    if (Number.isNaN(code) || code < 0x20) return -at;
    if (code !== 0x5c) {
      at += 1;
      continue;
    }
    const escape = text.charCodeAt(at + 1);
    if (PLAIN_ESCAPES.has(escape)) at += 2;
    else if (escape === 0x75 && /^[0-9a-fA-F]{4}$/.test(text.slice(at + 2, at + 6))) at += 6;
    else return -at;
  }
}

/** Line and column of an offset, both from 1, as a text editor counts them. */
export function lineAndColumn(text: string, offset: number): { readonly line: number; readonly column: number } {
  let line = 1;
  let lineStart = 0;
  for (let at = text.indexOf('\n'); at !== -1 && at < offset; at = text.indexOf('\n', lineStart)) {
    line += 1;
    lineStart = at + 1;
  }
  return { line, column: offset - lineStart + 1 };
}
