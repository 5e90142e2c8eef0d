import { readdirSync, readFileSync } from 'node:fs';
import type { Intent } from '../../src/job/index.ts';
import { parseLength, toCelsius, type Length } from '../../src/measure/index.ts';
import type { ContextName } from './contexts.ts';

/**
 * A line of the corpus: words said at a moment, and what must come of them: an intent with its value, a question between two
 * values, a number refused for a reason, or no command at all (`unheard`: the key, or `*` for no command or no number).
 */
export type Line = {
  readonly context: ContextName;
  readonly words: string;
  readonly intent?: Intent['type'];
  readonly value?: string;
  readonly either?: readonly [string, string];
  readonly refused?: string;
  readonly unheard?: string;
  readonly source?: string;
  readonly celsius?: number;
  readonly step?: number;
  /** Understood when written, and not in the recogniser's grammar, for what it would cost there. */
  readonly written?: boolean;
} & Readonly<Record<string, unknown>>;

const FOLDER = new URL('../fixtures/utterances/', import.meta.url);

export const corpus: readonly { readonly file: string; readonly lines: readonly Line[] }[] = readdirSync(FOLDER)
  .filter((name) => name.endsWith('.jsonl'))
  .sort()
  .map((file) => ({
    file,
    lines: readFileSync(new URL(file, FOLDER), 'utf8')
      .trimEnd()
      .split('\n')
      .map((text) => JSON.parse(text) as Line),
  }));

function nm(text: string): Length {
  const read = parseLength(text, 'inch');
  if (!read.ok) throw new Error(`"${text}" is no length`);
  return read.value;
}

const DETAILS = ['place', 'thing', 'instrument', 'spoken', 'feel', 'working', 'jaw', 'end', 'edge'] as const;

/** What a line wants, in the same words as `got`. */
export function wanted(line: Line): string {
  if (line.unheard !== undefined) return line.unheard === '*' ? 'unheard' : `unheard ${line.unheard}`;
  const parts = [line.intent ?? ''];
  if (line.value !== undefined) parts.push(`${nm(line.value)} nm`);
  if (line.celsius !== undefined) parts.push(`${line.celsius} °C`);
  if (line.step !== undefined) parts.push(`step ${line.step}`);
  if (line.either !== undefined) parts.push(`either ${line.either.map(nm).join(' ')}`);
  if (line.refused !== undefined) parts.push(`refused ${line.refused}`);
  for (const detail of DETAILS) if (line[detail] !== undefined) parts.push(`${detail} ${JSON.stringify(line[detail])}`);
  return parts.join(', ');
}

/** What came of it, with no more detail than the line asks for. */
export function got(
  line: Line,
  read: { readonly ok: true; readonly value: Intent } | { readonly ok: false; readonly error: { readonly key: string } },
): string {
  if (!read.ok) return line.unheard === '*' ? 'unheard' : `unheard ${read.error.key}`;
  const intent = read.value;
  const parts: string[] = [intent.type];
  const number = 'value' in intent ? intent.value : 'step' in intent ? intent.step : null;
  if (number?.as === 'none' && line.unheard === '*') return 'unheard';
  if (number?.as === 'none') parts.push(`refused ${number.reason}`);
  else if (number?.as === 'either') parts.push(`either ${number.values.join(' ')}`);
  else if (number !== null) {
    if (intent.type === 'temperature' && intent.value.as === 'one') parts.push(`${toCelsius(intent.value.value)} °C`);
    else if (intent.type === 'go-to') parts.push(`step ${number.value}`);
    else parts.push(`${number.value} nm`);
  }
  for (const detail of DETAILS)
    if (line[detail] !== undefined && detail in intent)
      parts.push(`${detail} ${JSON.stringify((intent as Record<string, unknown>)[detail])}`);
  return parts.join(', ');
}
