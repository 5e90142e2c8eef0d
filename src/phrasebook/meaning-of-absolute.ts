import { assert } from '../measure/index.ts';
import type { Candidate } from './candidate.ts';
import { child } from './figures.ts';
import { countedIn, hung, single } from './meaning-of-figures.ts';
import { feet, fractionOf, inchAnd, partFirst, partOf } from './meaning-of-parts.ts';
import { counted, ofThou, tenthsMore, type Reading } from './reading.ts';
import type { Tree } from './walk.ts';

/** Figures, and what their last words make of them. */
function fromFigures(reading: Reading, tree: Tree): Candidate[] {
  const [run, after] = tree.children;
  assert(run !== undefined, 'figures come first');
  const whole = counted(reading, run);
  switch (after?.rule) {
    case 'hung':
      return hung(reading, run, after);
    case 'thou-and': {
      const more = child(after, 'tenths-after');
      return whole === null ? [] : [ofThou(whole + (more === undefined ? 0.5 : tenthsMore(reading, more) / 10))];
    }
    case 'inch-and':
      return whole === null ? [] : [inchAnd(reading, whole, after)];
    case 'and-part': {
      const part = child(after, 'part');
      // Nobody says hundreds of inches and a fraction; "six twenty seven and a half" is thousandths.
      if (whole === null || part === undefined || (whole >= 100 && reading.unit === 'inch')) return [];
      return partOf(reading, whole, part, child(after, 'inch-word') !== undefined);
    }
    case 'under':
      return fractionOf(reading, 0, whole, after, child(tree, 'of-an-inch') !== undefined);
    case 'feet':
      return whole === null ? [] : feet(reading, whole, after);
    case undefined:
    case 'pointed':
    case 'half':
    case 'tenths-more':
    case 'unit':
      return countedIn(reading, tree);
  }
  throw new Error(`Broken invariant: no meaning is written for <${after?.rule}> after figures`);
}

/** A size or a cut by itself, of every form. */
export function absolute(reading: Reading, tree: Tree): Candidate[] {
  const [form] = tree.children;
  assert(form !== undefined, 'a number has a form');
  switch (form.rule) {
    case 'figures':
      return fromFigures(reading, form);
    case 'point-first':
      return countedIn(reading, form);
    case 'part-first':
      return partFirst(reading, form);
    case 'inch-first': {
      const more = child(form, 'inch-and');
      const part = child(form, 'part');
      return more !== undefined ? [inchAnd(reading, 1, more)] : part !== undefined ? partOf(reading, 1, part, true) : [];
    }
    case 'foot-first':
      return feet(reading, 1, child(form, 'feet') ?? form);
    case 'single':
      return single(reading, form);
  }
  throw new Error(`Broken invariant: no meaning is written for <${form.rule}>`);
}
