import { TOOL_KINDS } from '../machine.ts';
import { DATUMS } from '../datum.ts';
import { CONDITIONS } from '../stock.ts';
import type { DraftGroup } from './draft.ts';

/**
 * How a field is typed, and so how it is read:
 * - `line` a short text, `thread` a thread's designation, `number` a plain number
 * - `size` one length, `limits` a low and a high one (`.998 to .999`, `25h6`, `slide`), `sizes`, `numbers` several
 * - `readings` of a mate (`1.0004 near, 1.0003 far across`), `chucks` with the diameters they take (`three-jaw 3 to 150`)
 * - `choice` one of a few words, `words` several of them; `mate` (a bore or a bearing), `shaft` (or an outer ring), `width`,
 *   `turned` another row of the draft, `timing` an offset journal or a milled feature
 */
export type FieldType =
  | 'line'
  | 'thread'
  | 'number'
  | 'size'
  | 'limits'
  | 'sizes'
  | 'numbers'
  | 'readings'
  | 'chucks'
  | 'choice'
  | 'words'
  | 'mate'
  | 'shaft'
  | 'width'
  | 'turned'
  | 'timing';

/**
 * One field of a row. What is `needed` may not stay empty; what is not is left out of the part then, or stands as `null` where
 * `empty` says so. The first of `choices` is taken where none was chosen, unless the field may be empty.
 */
export type DraftField = {
  readonly name: string;
  readonly type: FieldType;
  readonly needed: boolean;
  readonly choices?: readonly string[];
  readonly empty?: 'null';
  /** Seldom wanted: shown once it is asked for, or where it holds something. */
  readonly seldom?: true;
};

/** A kind of row: its table, and its fields in the order in which they are typed. A new kind of feature is one entry. */
export type DraftKind = { readonly kind: string; readonly group: DraftGroup; readonly fields: readonly DraftField[] };

const needed = (name: string, type: FieldType): DraftField => ({ name, type, needed: true });
const perhaps = (name: string, type: FieldType): DraftField => ({ name, type, needed: false });
const seldom = (field: DraftField): DraftField => ({ ...field, seldom: true });
const oneOf = (name: string, ...choices: readonly string[]): DraftField => ({ name, type: 'choice', needed: true, choices });
const NAME = needed('name', 'line');
const MATE: DraftField = { ...perhaps('mate', 'mate'), empty: 'null' };
const LEFT_RIGHT = ['left', 'right'] as const;

/** What a length is counted from; empty where it is simply as long as that between its two ends. */
const DATUM: DraftField = seldom({ name: 'datum', type: 'choice', needed: false, choices: DATUMS });
const ROUGHNESS: DraftField = seldom(perhaps('roughness', 'number'));

const plain: readonly DraftField[] = [
  needed('diameter', 'limits'),
  needed('length', 'limits'),
  DATUM,
  seldom(perhaps('between', 'width')),
  seldom(oneOf('finish', 'turned', 'filed', 'polished')),
  ROUGHNESS,
];
const measured: readonly DraftField[] = [
  NAME,
  needed('nominal', 'size'),
  perhaps('readings', 'readings'),
  oneOf('instrument', 'micrometer', 'telescoping-gauge', 'caliper', 'rule'),
];
const edge: readonly DraftField[] = [NAME, needed('on', 'turned'), oneOf('at', ...LEFT_RIGHT)];
const hole: readonly DraftField[] = [NAME, oneOf('end', ...LEFT_RIGHT)];
const side: readonly DraftField[] = [NAME, needed('on', 'turned')];
const timed: readonly DraftField[] = [
  seldom(perhaps('along', 'size')),
  seldom(perhaps('timedTo', 'timing')),
  seldom(perhaps('angle', 'number')),
];
const machine: readonly DraftField[] = [
  NAME,
  needed('crossDivision', 'size'),
  needed('crossTurn', 'size'),
  oneOf('reads', 'diameter', 'radius'),
  perhaps('carriageDivision', 'size'),
  perhaps('carriageTurn', 'size'),
  needed('spindleSpeeds', 'numbers'),
  seldom(perhaps('feeds', 'sizes')),
  seldom(perhaps('pitches', 'sizes')),
  seldom(perhaps('chucks', 'chucks')),
  seldom(perhaps('spindleBore', 'size')),
  seldom(perhaps('betweenCentres', 'size')),
  seldom(perhaps('compoundTravel', 'size')),
  seldom(perhaps('taperLength', 'size')),
  seldom(perhaps('taperPerFoot', 'number')),
  seldom(perhaps('tailstockSetOver', 'size')),
  seldom(perhaps('powerKw', 'number')),
  seldom({ name: 'tools', type: 'words', needed: false, choices: TOOL_KINDS }),
];

export const DRAFT_KINDS: readonly DraftKind[] = [
  { kind: 'bore', group: 'mates', fields: measured },
  { kind: 'shaft', group: 'mates', fields: measured },
  { kind: 'width', group: 'mates', fields: measured },
  { kind: 'bearing', group: 'mates', fields: measured },
  { kind: 'outer-ring', group: 'mates', fields: measured },
  { kind: 'bolt', group: 'mates', fields: [NAME, needed('nominal', 'size')] },

  { kind: 'collar', group: 'turned', fields: [NAME, ...plain] },
  { kind: 'journal', group: 'turned', fields: [NAME, MATE, ...plain] },
  {
    kind: 'offset-journal',
    group: 'turned',
    fields: [NAME, MATE, needed('throw', 'size'), ...plain, seldom(perhaps('direction', 'number'))],
  },
  {
    kind: 'thread',
    group: 'turned',
    fields: [NAME, needed('designation', 'thread'), needed('length', 'limits'), DATUM, seldom(perhaps('major', 'limits'))],
  },
  { kind: 'taper', group: 'turned', fields: [NAME, needed('small', 'size'), oneOf('smallEnd', 'right', 'left'), ...plain] },
  { kind: 'groove', group: 'turned', fields: [NAME, ...plain, seldom(oneOf('form', 'square', 'round'))] },

  { kind: 'chamfer', group: 'edges', fields: [...edge, needed('size', 'size'), perhaps('degrees', 'number')] },
  { kind: 'fillet', group: 'edges', fields: [...edge, needed('radius', 'size')] },
  { kind: 'undercut', group: 'edges', fields: [...edge, needed('width', 'size'), needed('depth', 'size')] },

  { kind: 'centre', group: 'ends', fields: hole },
  {
    kind: 'tapped-hole',
    group: 'ends',
    fields: [
      ...hole,
      needed('designation', 'thread'),
      needed('drillDepth', 'size'),
      needed('threadDepth', 'size'),
      perhaps('drill', 'size'),
    ],
  },
  { kind: 'drilled-hole', group: 'ends', fields: [...hole, needed('drill', 'size'), needed('drillDepth', 'size')] },
  {
    kind: 'bored-hole',
    group: 'ends',
    fields: [
      ...hole,
      { ...perhaps('mate', 'shaft'), empty: 'null' },
      needed('diameter', 'limits'),
      needed('depth', 'limits'),
      needed('drill', 'size'),
      needed('drillDepth', 'size'),
      ROUGHNESS,
    ],
  },

  { kind: 'flat', group: 'milled', fields: [...side, needed('depth', 'size'), needed('length', 'size'), ...timed, ROUGHNESS] },
  {
    kind: 'keyway',
    group: 'milled',
    fields: [...side, needed('width', 'size'), needed('depth', 'size'), needed('length', 'size'), ...timed, ROUGHNESS],
  },
  { kind: 'pin-pocket', group: 'milled', fields: [...side, needed('diameter', 'size'), needed('depth', 'size'), ...timed] },
  {
    kind: 'pocket',
    group: 'milled',
    fields: [...side, needed('width', 'size'), needed('depth', 'size'), needed('length', 'size'), ...timed, ROUGHNESS],
  },
  { kind: 'cross-hole', group: 'milled', fields: [...side, needed('diameter', 'size'), perhaps('depth', 'size'), ...timed] },

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
  { name: 'condition', type: 'choice', needed: false, choices: CONDITIONS },
  needed('general', 'size'),
];

export const draftKind = (kind: string): DraftKind | null => DRAFT_KINDS.find((each) => each.kind === kind) ?? null;
export const kindsOf = (group: DraftGroup): readonly DraftKind[] => DRAFT_KINDS.filter((each) => each.group === group);
