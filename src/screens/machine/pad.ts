import { celsius, fahrenheit, parseLength, type DisplayUnit, type InstrumentKind } from '../../measure/index.ts';
import type { Intent, Place, SetUpCount, SetUpLength } from '../../job/index.ts';

/** What the number pad can be open for: the commands that take a number, by their names in the phrasebook. */
export const PAD_ASKS = [
  'reading',
  'correct',
  'took',
  'dial',
  'jaw',
  'low',
  'high',
  'edge',
  'other-edge',
  'temperature',
  'go-to',
  'end-edge',
  'spot',
  'angle',
  'readings-round',
  'holes',
  'hole-number',
  'turns',
  'finder',
  'bolt-circle',
  'hole-line',
  'large-end',
  'small-end',
  'taper-length',
  'work-length',
  'packing-on',
  'packed-with',
  'carriage-dial',
  'filed-rounds',
  'filed-strokes',
  'filed-seconds',
] as const;
export type PadAsk = (typeof PAD_ASKS)[number];

/** The asks that are a whole number for a set-up, and those that are a length for one. */
const COUNTS: Readonly<Partial<Record<PadAsk, SetUpCount>>> = {
  angle: 'degrees',
  'readings-round': 'readings',
  holes: 'holes',
  'hole-number': 'hole',
  turns: 'turns',
};
const FILED: Readonly<Partial<Record<PadAsk, 'rounds' | 'strokes' | 'seconds'>>> = {
  'filed-rounds': 'rounds',
  'filed-strokes': 'strokes',
  'filed-seconds': 'seconds',
};
const LENGTHS: Readonly<Partial<Record<PadAsk, SetUpLength>>> = {
  finder: 'finder',
  'bolt-circle': 'circle',
  'hole-line': 'line',
  'large-end': 'large',
  'small-end': 'small',
  'taper-length': 'over',
  'work-length': 'work',
  'packing-on': 'bar',
  'packed-with': 'packing',
  'carriage-dial': 'carriage',
};

export type PadUnit = 'in' | 'thou' | 'mm' | 'C' | 'F' | 'none';

/**
 * The open number pad. `text` holds digits, at most one point a number, a leading sign, a fraction bar and a space. `signed`
 * offers a minus key: what hangs on an indicator, an edge or the weather can be below zero.
 */
export type Pad = {
  readonly ask: PadAsk;
  readonly signed: boolean;
  readonly text: string;
  readonly unit: PadUnit;
  readonly place: Place | null;
  readonly instrument: InstrumentKind | null;
  readonly jaw: 1 | 2 | 3 | 4;
};

const LONGEST = 14;

/** The units that the pad turns through, the likeliest first. Cuts and indicators are told in thou where inches are shown. */
export function unitsOf(ask: PadAsk, unit: DisplayUnit): readonly PadUnit[] {
  switch (ask) {
    case 'reading':
    case 'correct':
    case 'edge':
    case 'other-edge':
    case 'end-edge':
    case 'finder':
    case 'bolt-circle':
    case 'hole-line':
    case 'large-end':
    case 'small-end':
    case 'taper-length':
    case 'work-length':
    case 'packing-on':
    case 'packed-with':
      return unit === 'inch' ? ['in', 'mm'] : ['mm', 'in'];
    case 'took':
    case 'dial':
    case 'jaw':
    case 'low':
    case 'high':
    case 'spot':
    case 'carriage-dial':
      return unit === 'inch' ? ['thou', 'in'] : ['mm', 'thou'];
    case 'temperature':
      return unit === 'inch' ? ['F', 'C'] : ['C', 'F'];
    case 'go-to':
    case 'angle':
    case 'readings-round':
    case 'holes':
    case 'hole-number':
    case 'turns':
    case 'filed-rounds':
    case 'filed-strokes':
    case 'filed-seconds':
      return ['none'];
  }
}

const SIGNED: readonly PadAsk[] = ['jaw', 'low', 'high', 'edge', 'other-edge', 'end-edge', 'spot', 'temperature'];
export const takesFraction = (pad: Pad): boolean => pad.unit === 'in';
export const takesPlace = (ask: PadAsk): boolean => ask === 'reading';

/** A pad with nothing typed yet, or with the key that opened it. `onIndicator` says that a reading here hangs on an indicator. */
export function openPad(ask: PadAsk, unit: DisplayUnit, onIndicator: boolean, key = ''): Pad {
  const signed = SIGNED.includes(ask) || (ask === 'reading' && onIndicator);
  const empty: Pad = { ask, signed, text: '', unit: unitsOf(ask, unit)[0] ?? 'none', place: null, instrument: null, jaw: 1 };
  return key === '' ? empty : pressed(empty, key);
}

/**
 * The pad after one key: a digit, `.`, `/`, a space, a sign; a key that cannot stand there changes nothing. A reading may be
 * typed as an offset from the target (`+2`), so it takes a sign from the keyboard even where the pad offers none.
 */
export function pressed(pad: Pad, key: string): Pad {
  if (pad.text.length >= LONGEST) return pad;
  const number = /[\d.]*$/.exec(pad.text)?.[0] ?? '';
  const fits =
    /^\d$/.test(key) ||
    (key === '.' && !number.includes('.') && !pad.text.includes('/')) ||
    (key === '-' && pad.text === '' && (pad.signed || pad.ask === 'reading')) ||
    (key === '+' && pad.text === '' && pad.ask === 'reading') ||
    (key === '/' && takesFraction(pad) && /^[-+]?(\d+ )?\d+$/.test(pad.text)) ||
    (key === ' ' && takesFraction(pad) && /^[-+]?\d+$/.test(pad.text));
  return fits ? { ...pad, text: pad.text + key } : pad;
}

export const erased = (pad: Pad): Pad => ({ ...pad, text: pad.text.slice(0, -1) });

/** The member after `now`, round and round. */
const after = <T>(members: readonly T[], now: T): T => {
  const next = members[(members.indexOf(now) + 1) % members.length];
  return next === undefined ? now : next;
};

const PLACES: readonly (Place | null)[] = [null, 'at-the-shoulder', 'in-the-middle', 'at-the-end', 'across'];
const HAND_INSTRUMENTS: readonly (InstrumentKind | null)[] = [
  null,
  'caliper',
  'micrometer',
  'depth-micrometer',
  'telescoping-gauge',
  'rule',
];

export const turnedUnit = (pad: Pad, unit: DisplayUnit): Pad => ({ ...pad, unit: after(unitsOf(pad.ask, unit), pad.unit) });
export const turnedPlace = (pad: Pad): Pad => ({ ...pad, place: after(PLACES, pad.place) });
export const turnedInstrument = (pad: Pad): Pad => ({ ...pad, instrument: after(HAND_INSTRUMENTS, pad.instrument) });
export const turnedJaw = (pad: Pad): Pad => ({ ...pad, jaw: after([1, 2, 3, 4] as const, pad.jaw) });

/** What a letter typed while the pad is open says about the unit: a caliper that types may send `in` or `mm`. */
export function withUnitLetter(pad: Pad, letter: string, unit: DisplayUnit): Pad {
  const named = unitsOf(pad.ask, unit).find((candidate) => candidate.toLowerCase().startsWith(letter.toLowerCase()));
  return named === undefined ? pad : { ...pad, unit: named };
}

/**
 * What entering the pad does: the same as having said it; `null` while the text is not yet a number. A size goes on as typed
 * text, since the phrasebook knows where its point belongs (`627` where .620 is awaited).
 */
export type Entered =
  | { readonly as: 'intent'; readonly intent: Intent }
  | {
      readonly as: 'size';
      readonly for: 'reading' | 'correct';
      readonly text: string;
      readonly place: Place | null;
      readonly instrument: InstrumentKind | null;
    };

export function entered(pad: Pad, unit: DisplayUnit): Entered | null {
  const intent = (made: Intent): Entered => ({ as: 'intent', intent: made });
  if (pad.ask === 'go-to')
    return /^\d+$/.test(pad.text) ? intent({ type: 'go-to', step: { as: 'one', value: Number(pad.text) } }) : null;
  const filed = FILED[pad.ask];
  if (filed !== undefined)
    return /^\d+$/.test(pad.text) ? intent({ type: 'filed', in: filed, value: { as: 'one', value: Number(pad.text) } }) : null;
  const count = COUNTS[pad.ask];
  if (count !== undefined)
    return /^\d+$/.test(pad.text)
      ? intent({ type: 'set-up-count', what: count, value: { as: 'one', value: Number(pad.text) } })
      : null;
  if (pad.ask === 'temperature') {
    if (!/^-?\d*\.?\d+$/.test(pad.text)) return null;
    const degrees = pad.unit === 'F' ? fahrenheit(Number(pad.text), 'half-even') : celsius(Number(pad.text), 'half-even');
    return intent({ type: 'temperature', value: { as: 'one', value: degrees } });
  }
  const text = `${pad.text} ${pad.unit}`;
  const read = parseLength(text, unit);
  if (!read.ok) return null;
  const value = { as: 'one', value: read.value } as const;
  const length = LENGTHS[pad.ask];
  if (length !== undefined) return intent({ type: 'set-up-length', what: length, value });
  switch (pad.ask) {
    case 'reading':
    case 'correct':
      return {
        as: 'size',
        for: pad.ask,
        text: pad.unit === unitsOf(pad.ask, unit)[0] ? pad.text : text,
        place: pad.place,
        instrument: pad.instrument,
      };
    case 'took':
      return intent({ type: 'took', value });
    case 'dial':
      return intent({ type: 'dial', value });
    case 'jaw':
      return intent({ type: 'jaw', jaw: pad.jaw, value });
    case 'low':
    case 'high':
      return intent({ type: 'indicator', end: pad.ask, value });
    case 'edge':
      return intent({ type: 'edge', edge: 'first', value });
    case 'other-edge':
      return intent({ type: 'edge', edge: 'other', value });
    case 'end-edge':
      return intent({ type: 'edge', edge: 'end', value });
    case 'spot':
      return intent({ type: 'spot', value });
    case 'angle':
    case 'readings-round':
    case 'holes':
    case 'hole-number':
    case 'turns':
    case 'finder':
    case 'bolt-circle':
    case 'hole-line':
    case 'large-end':
    case 'small-end':
    case 'taper-length':
    case 'work-length':
    case 'packing-on':
    case 'packed-with':
    case 'carriage-dial':
    case 'filed-rounds':
    case 'filed-strokes':
    case 'filed-seconds':
      return null;
  }
}

/** The keys that are likely next: those that go on from what is typed to one of the sizes that are expected. */
export function likelyKeys(typed: string, expected: readonly string[]): ReadonlySet<string> {
  const keys = new Set<string>();
  for (const size of expected) {
    // A shop types the point with or without the nought before it.
    for (const written of size.startsWith('.') ? [size, `0${size}`] : [size]) {
      const next = written.startsWith(typed) ? written.charAt(typed.length) : '';
      if (next !== '') keys.add(next);
    }
  }
  return keys;
}
