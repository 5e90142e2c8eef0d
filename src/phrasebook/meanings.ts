import { assert, celsius, fahrenheit, NM_PER_MM, type DisplayUnit } from '../measure/index.ts';
import { PRIOR, type Candidate, type LengthCandidate } from './candidate.ts';
import { child, figures, natural } from './figures.ts';
import { absolute } from './meaning-of-absolute.ts';
import { countOf, each, has, ofHundredths, ofTenths, ofThou, round, type Reading } from './reading.ts';
import type { Tree } from './walk.ts';

/** How far off or how much more: "two" is two thou, or two hundredths of a millimetre. What is no length is no amount. */
function amount(reading: Reading, tree: Tree): LengthCandidate[] {
  const inner = child(tree, 'figures');
  const bare =
    inner !== undefined && inner.children.every(({ rule }) => rule === 'run' || rule === 'half' || rule === 'tenths-more');
  if (inner === undefined || !bare)
    return absolute({ ...reading, counting: 'cut' }, tree).flatMap((said) => (said.kind === 'length' ? [said] : []));
  const total = countOf(reading, inner);
  if (total === null) return [];
  if (reading.unit === 'inch') return [{ ...ofThou(total), named: false }];
  if (child(inner, 'tenths-more') !== undefined) return [each(total, NM_PER_MM, 'millimetre', 0)];
  return [each(total, NM_PER_MM / 100, 'millimetre', 2), { ...each(total, NM_PER_MM, 'millimetre', 0), prior: PRIOR.stretch }];
}

/** "Another thou": one of what was named. */
function oneMore(reading: Reading, tree: Tree): LengthCandidate {
  if (has(reading, tree, 'tenth')) return ofTenths(reading, tree, 1);
  return has(reading, tree, 'hundredth') ? ofHundredths(reading, tree, 1) : ofThou(1);
}

function signOf(tree: Tree): 1 | -1 {
  return child(tree, 'minus') !== undefined || child(tree, 'undersize') !== undefined || child(tree, 'less') !== undefined
    ? -1
    : 1;
}

/** All that a number rule of the top level may mean. */
export function meanings(reading: Reading, tree: Tree): Candidate[] {
  switch (tree.rule) {
    case 'size':
    case 'small':
    case 'signed': {
      const sign = signOf(tree);
      const signed = child(tree, 'plus') !== undefined || child(tree, 'minus') !== undefined;
      return tree.children.flatMap((inner) => {
        if (inner.rule === 'plus' || inner.rule === 'minus') return [];
        if (inner.rule !== 'absolute') return meanings(reading, inner);
        return absolute(reading, inner).map((said) =>
          said.kind === 'length' ? { ...said, value: round(sign * said.value), signed } : said,
        );
      });
    }
    case 'offset':
      return amount(reading, child(tree, 'absolute') ?? tree).map(({ value, prior }) => ({
        kind: 'from-target',
        by: round(signOf(tree) * value),
        prior,
      }));
    case 'on-size':
      return [{ kind: 'from-target', by: round(0), prior: PRIOR.habit }];
    case 'same':
      return [{ kind: 'from-last', by: round(0), prior: PRIOR.habit }];
    case 'another':
      return (
        child(tree, 'one-more') === undefined ? amount(reading, child(tree, 'absolute') ?? tree) : [oneMore(reading, tree)]
      ).map(({ value, prior }) => ({ kind: 'from-last', by: round(signOf(tree) * value), prior }));
    case 'half-of-last':
      return [{ kind: 'half-of-last', prior: PRIOR.habit }];
    case 'vague':
      return [{ kind: 'vague', prior: PRIOR.habit }];
    case 'step': {
      const [inner] = tree.children;
      assert(inner !== undefined, 'a step has its number');
      return [{ kind: 'count', count: natural(reading.words, inner), of: 'step', prior: PRIOR.habit }];
    }
    case 'temperature':
      return temperature(reading, tree);
  }
  throw new Error(`Broken invariant: no meaning is written for <${tree.rule}>`);
}

function temperature(reading: Reading, tree: Tree): Candidate[] {
  const [warmth, after] = tree.children;
  assert(warmth !== undefined, 'a temperature has its degrees');
  const part = after?.rule === 'figure' ? natural(reading.words, after) / 10 : after?.rule === 'half' ? 0.5 : 0;
  const count = Number(figures(reading.words, [warmth]).digits) + part;
  const said = reading.words[tree.from] === 'minus' ? -count : count;
  const scale = child(tree, 'scale');
  const named = scale !== undefined;
  const own = (unit: DisplayUnit): number => (named || reading.unit === unit ? PRIOR.habit : PRIOR.rare);
  const inFahrenheit: Candidate = {
    kind: 'temperature',
    value: fahrenheit(said, 'half-even'),
    scale: 'fahrenheit',
    named,
    prior: own('inch'),
  };
  const inCelsius: Candidate = {
    kind: 'temperature',
    value: celsius(said, 'half-even'),
    scale: 'celsius',
    named,
    prior: own('millimetre'),
  };
  if (!named) return [inFahrenheit, inCelsius];
  return [has(reading, scale, 'fahrenheit', 'f') ? inFahrenheit : inCelsius];
}
