import { assert, NM_PER_INCH, NM_PER_MM } from '../measure/index.ts';
import { PRIOR, type Candidate } from './candidate.ts';
import { child } from './figures.ts';
import { countedIn, hung, single } from './meaning-of-figures.ts';
import { feet, fractionOf, giveOrTake, hundredthsMore, inchAnd, partFirst, partOf } from './meaning-of-parts.ts';
import { counted, length, ofThou, tenthsMore, type Reading } from './reading.ts';
import type { Tree } from './walk.ts';

/** Whether a fraction says that it is of an inch. */
const named = (tree: Tree): boolean => child(tree, 'inch-word') !== undefined || child(tree, 'of-an-inch') !== undefined;

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
    case 'hundredths-more':
      return hundredthsMore(reading, whole, after, false);
    case 'metric-and': {
      const hundredths = child(after, 'hundredths-more');
      if (hundredths !== undefined) return hundredthsMore(reading, whole, hundredths, true);
      const more = child(after, 'tenths-more');
      return whole === null || more === undefined
        ? []
        : [length(whole * NM_PER_MM + (tenthsMore(reading, more) * NM_PER_MM) / 10, 'millimetre', 1, PRIOR.habit, true)];
    }
    case 'inch-and':
      return whole === null ? [] : [inchAnd(reading, whole, after)];
    case 'and-part': {
      const part = child(after, 'part');
      // Nobody says hundreds of inches and a fraction; "six twenty seven and a half" is thousandths.
      if (whole === null || part === undefined || (whole >= 100 && reading.unit === 'inch')) return [];
      return giveOrTake(reading, after, partOf(reading, whole, part, named(after)));
    }
    case 'under':
      return giveOrTake(reading, tree, fractionOf(reading, 0, whole, after, named(tree)));
    case 'feet':
      return whole === null ? [] : giveOrTake(reading, after, feet(reading, whole, after));
    case undefined:
    case 'pointed':
    case 'half':
    case 'tenths-more':
    case 'unit':
      return countedIn(reading, tree);
  }
  throw new Error(`Broken invariant: no meaning is written for <${after?.rule}> after figures`);
}

/** "A foot", "a foot and a half". */
const footFirst = (reading: Reading, tree: Tree | undefined): Candidate[] =>
  tree === undefined
    ? [length(12 * NM_PER_INCH, 'inch', null, PRIOR.habit, true)]
    : giveOrTake(reading, tree, feet(reading, 1, tree));

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
      return giveOrTake(reading, form, partFirst(reading, form));
    case 'inch-first': {
      const more = child(form, 'inch-and');
      const part = child(form, 'part');
      if (more !== undefined) return [inchAnd(reading, 1, more)];
      assert(part !== undefined, 'an inch that comes first has a part after it');
      return giveOrTake(reading, form, partOf(reading, 1, part, true));
    }
    case 'foot-first':
      return footFirst(reading, child(form, 'feet'));
    case 'single':
      return single(reading, form);
  }
  throw new Error(`Broken invariant: no meaning is written for <${form.rule}>`);
}
