import { parseLength, zero, type DisplayUnit } from '../../measure/index.ts';
import { DRAFT_GROUPS, type Draft } from './draft.ts';
import { ABOUT_FIELDS, draftKind, type DraftField, type FieldType } from './kinds.ts';
import { typedSize } from './typedSize.ts';
import { readWrittenLimits } from './writtenLimits.ts';

/** One typed size in another unit; what is not a size, or names its own unit, stays as it is. */
function sizeIn(text: string, from: DisplayUnit, to: DisplayUnit): string {
  const read = /[a-z"'”’]/i.test(text) ? null : parseLength(text, from);
  return read?.ok === true ? typedSize(read.value, to) : text;
}

function limitsIn(text: string, from: DisplayUnit, to: DisplayUnit): string {
  const alone = sizeIn(text, from, to);
  if (alone !== text || /(?!to\b)[a-z"'”’]{2,}|[a-z]\d/i.test(text)) return alone;
  const read = readWrittenLimits(text, from, zero, null);
  return read.ok && read.value.low !== read.value.high
    ? `${typedSize(read.value.low, to)} to ${typedSize(read.value.high, to)}`
    : text;
}

function fieldIn(type: FieldType, text: string, from: DisplayUnit, to: DisplayUnit): string {
  switch (type) {
    case 'size':
      return sizeIn(text, from, to);
    case 'limits':
      return limitsIn(text, from, to);
    case 'sizes':
    case 'readings':
    case 'chucks': {
      // Numbers change, words between them stay; a fraction with its whole number belongs together.
      return text.replace(/(?<![\w.])(?:\d+ )?[\d.]+(?:\/\d+)?(?![\w"'])/g, (number) => sizeIn(number, from, to));
    }
    case 'line':
    case 'thread':
    case 'number':
    case 'numbers':
    case 'choice':
    case 'words':
    case 'mate':
    case 'shaft':
    case 'width':
    case 'turned':
    case 'timing':
      return text;
  }
}

/** A draft in another unit: every size that reads is written anew, to the same nanometre; all else stays as it was typed. */
export function inUnit(draft: Draft, unit: DisplayUnit): Draft {
  if (unit === draft.unit) return draft;
  const from = draft.unit;
  const changed = (values: Readonly<Record<string, string>>, fields: readonly DraftField[]): Record<string, string> =>
    Object.fromEntries(
      Object.entries(values).map(([name, text]) => {
        const type = fields.find((field) => field.name === name)?.type;
        return [name, type === undefined ? text : fieldIn(type, text, from, unit)];
      }),
    );
  const groups = DRAFT_GROUPS.map((group) => [
    group,
    draft[group].map((row) => ({ ...row, values: changed(row.values, draftKind(row.kind)?.fields ?? []) })),
  ]);
  return {
    ...draft,
    ...(Object.fromEntries(groups) as Pick<Draft, (typeof DRAFT_GROUPS)[number]>),
    about: changed(draft.about, ABOUT_FIELDS),
    instruments: draft.instruments.map((own) => ({
      ...own,
      resolution: sizeIn(own.resolution, from, unit),
      permissibleError: sizeIn(own.permissibleError, from, unit),
    })),
    unit,
  };
}
