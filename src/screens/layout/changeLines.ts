import { midway, type DisplayUnit } from '../../measure/index.ts';
import { changesBetween, describeChange, leavesMetal, type Operation, type Route, type RouteChange } from '../../route/index.ts';
import { fitInWords } from '../drawing/FitDrawing.tsx';
import { bareSize, bothLimits, unitSign } from '../show.ts';
import { words } from '../words.ts';
import { layoutWords } from './layoutWords.ts';

const w = layoutWords.changes;

/** Of a size to be made: its limits, and of a fit the clearance, as one line each. */
const LIMITS = ['target.low', 'target.high', 'target.aim'];
const CLEARANCE = ['target.fit.leastClearance', 'target.fit.mostClearance'];

function limitsOf({ target }: Operation, unit: DisplayUnit): string {
  if (target === null) return '';
  // A rough cut is wanted about here, and its limits are far apart: one size says it.
  const size = bareSize(midway(target.low, target.high, 'half-even'), unit);
  const range = words.range(...bothLimits(target.low, target.high, unit));
  return `${target.fit === null ? size : range} ${unitSign(unit)}`;
}

/** Empty where what fits is not made yet. */
function clearanceOf({ target }: Operation, unit: DisplayUnit): string {
  if (target === null || target.fit === null || leavesMetal(target)) return '';
  return fitInWords(target.fit.leastClearance, target.fit.mostClearance, unit);
}

/** A step names its size in its title and its reasons, and starts where the one before ends: said once, as the size. */
const FOLLOWS = /^(title|say|why\b.*|target\.from)$/;

/**
 * What a mate that was measured again moved in the steps that make the part, a sentence each. What its own measuring now
 * expects is left out: that is what was just typed.
 */
export function changeLines(before: Route, after: Route, unit: DisplayUnit): readonly string[] {
  const [was, is] = [before, after].map((route) => new Map(route.operations.map((operation) => [operation.id, operation])));
  const lines = changesBetween(before, after).flatMap((change: RouteChange): string[] => {
    const [old, now] = [was?.get(change.operation), is?.get(change.operation)];
    if (old === undefined || now === undefined || change.change !== 'value') return [describeChange(change, unit)];
    if (now.kind === 'measure-mate' || FOLLOWS.test(change.field)) return [];
    const said = LIMITS.includes(change.field) ? limitsOf : CLEARANCE.includes(change.field) ? clearanceOf : null;
    if (said === null) return [describeChange(change, unit)];
    const [text, wasText] = [said(now, unit), said(old, unit)];
    return text === wasText || text === '' ? [] : [wasText === '' ? w.now(now.title, text) : w.size(now.title, text, wasText)];
  });
  return [...new Set(lines)];
}
