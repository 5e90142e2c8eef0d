import type { DraftGroup } from './draft.ts';

/**
 * How a field is typed, and so how it is read:
 * - `line` a short text, `thread` a thread's designation
 * - `size` one length, `limits` a low and a high one (`.998 to .999`, `25h6`, `slide`), `sizes` several, `numbers` several counts
 * - `choice` one of a few words, `bore`, `width`, `turned` another row of the draft
 */
export type FieldType = 'line' | 'thread' | 'size' | 'limits' | 'sizes' | 'numbers' | 'choice' | 'bore' | 'width' | 'turned';

/** One field of a row. A field that is not `needed` may stay empty and is then `null`, or left out where `absent` says so. */
export type DraftField = {
  readonly name: string;
  readonly type: FieldType;
  readonly needed: boolean;
  readonly choices?: readonly string[];
  readonly absent?: 'left-out';
};

/** A kind of row: its table, and its fields in the order in which they are typed. A new kind of feature is one entry. */
export type DraftKind = { readonly kind: string; readonly group: DraftGroup; readonly fields: readonly DraftField[] };

const needed = (name: string, type: FieldType): DraftField => ({ name, type, needed: true });
const perhaps = (name: string, type: FieldType): DraftField => ({ name, type, needed: false });
const oneOf = (name: string, ...choices: readonly string[]): DraftField => ({ name, type: 'choice', needed: true, choices });
const NAME = needed('name', 'line');

const plain: readonly DraftField[] = [
  needed('diameter', 'limits'),
  needed('length', 'limits'),
  { ...perhaps('between', 'width'), absent: 'left-out' },
  oneOf('finish', 'turned', 'filed', 'polished'),
];
const mate: readonly DraftField[] = [
  NAME,
  needed('nominal', 'size'),
  perhaps('readings', 'sizes'),
  oneOf('instrument', 'micrometer', 'telescoping-gauge', 'caliper', 'rule'),
];
const machine: readonly DraftField[] = [
  NAME,
  needed('crossDivision', 'size'),
  needed('crossTurn', 'size'),
  oneOf('reads', 'diameter', 'radius'),
  perhaps('carriageDivision', 'size'),
  perhaps('carriageTurn', 'size'),
  needed('spindleSpeeds', 'numbers'),
  perhaps('feeds', 'sizes'),
];

export const DRAFT_KINDS: readonly DraftKind[] = [
  { kind: 'bore', group: 'mates', fields: mate },
  { kind: 'width', group: 'mates', fields: mate },
  { kind: 'bearing', group: 'mates', fields: [NAME, needed('nominal', 'size')] },
  { kind: 'bolt', group: 'mates', fields: [NAME, needed('nominal', 'size')] },

  { kind: 'collar', group: 'turned', fields: [NAME, ...plain] },
  { kind: 'journal', group: 'turned', fields: [NAME, perhaps('mate', 'bore'), ...plain] },
  { kind: 'offset-journal', group: 'turned', fields: [NAME, needed('throw', 'size'), perhaps('mate', 'bore'), ...plain] },
  {
    kind: 'thread',
    group: 'turned',
    fields: [NAME, needed('designation', 'thread'), perhaps('major', 'limits'), needed('length', 'limits')],
  },

  { kind: 'centre', group: 'ends', fields: [NAME, oneOf('end', 'left', 'right')] },
  {
    kind: 'tapped-hole',
    group: 'ends',
    fields: [
      NAME,
      oneOf('end', 'left', 'right'),
      needed('designation', 'thread'),
      perhaps('drill', 'size'),
      needed('drillDepth', 'size'),
      needed('threadDepth', 'size'),
    ],
  },

  { kind: 'flat', group: 'milled', fields: [NAME, needed('on', 'turned'), needed('depth', 'size'), needed('length', 'size')] },
  {
    kind: 'keyway',
    group: 'milled',
    fields: [NAME, needed('on', 'turned'), needed('width', 'size'), needed('depth', 'size'), needed('length', 'size')],
  },
  {
    kind: 'pin-pocket',
    group: 'milled',
    fields: [NAME, needed('on', 'turned'), needed('diameter', 'size'), needed('depth', 'size'), perhaps('timedTo', 'turned')],
  },

  { kind: 'lathe', group: 'machines', fields: machine },
  { kind: 'mill', group: 'machines', fields: machine },
];

/** The fields that stand once in a draft. */
export const ABOUT_FIELDS: readonly DraftField[] = [
  NAME,
  oneOf('form', 'round', 'hexagon', 'square'),
  needed('size', 'size'),
  needed('length', 'size'),
  needed('material', 'line'),
  needed('general', 'size'),
];

export const draftKind = (kind: string): DraftKind | null => DRAFT_KINDS.find((each) => each.kind === kind) ?? null;
export const kindsOf = (group: DraftGroup): readonly DraftKind[] => DRAFT_KINDS.filter((each) => each.group === group);
