import { assert } from '../../measure/index.ts';
import { WARPS, type Personal } from './personal.ts';

/**
 * What the recogniser made of a phrase that it was told beforehand, with the front end at one shift: how well the phrase itself
 * fits, as a natural logarithm a step of the network; whether it came out; and the odds (natural logarithm) that it was right.
 */
export type View = { readonly warp: number; readonly fits: number; readonly right: boolean; readonly odds: number };

/** One phrase of the set-up: its level in decibels of full scale, and a view for each of `WARPS`. */
export type Take = { readonly said: string; readonly heard: string; readonly levelDb: number; readonly views: readonly View[] };

/** Another shift must fit better by so much a step, or the network's own is kept: 20 phrases can be better by chance. */
const BETTER_BY = 0.01;
/** Most that the odds are raised: what is refused protects from talk and noise. They may be lowered by twice as much. */
const MOST_BIAS = 1;
const LEAST_BIAS = -2;

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
const viewAt = (take: Take, warp: number): View => {
  const view = take.views.find((each) => each.warp === warp);
  assert(view !== undefined, `a take has a view at ${warp}`);
  return view;
};

function warpFor(takes: readonly Take[]): number {
  const fits = (warp: number): number => mean(takes.map((take) => viewAt(take, warp).fits));
  let best = 1;
  let most = fits(1) + BETTER_BY;
  for (const warp of WARPS) {
    if (warp === 1 || fits(warp) <= most) continue;
    best = warp;
    most = fits(warp);
  }
  return best;
}

/** Logistic regression of a single bias, held towards nought as by a normal prior of width one; Newton's method. */
function biasFor(views: readonly View[]): number {
  let bias = 0;
  for (let round = 0; round < 20; round += 1) {
    let slope = -bias;
    let curve = 1;
    for (const { odds, right } of views) {
      const p = 1 / (1 + Math.exp(-(odds + bias)));
      slope += (right ? 1 : 0) - p;
      curve += p * (1 - p);
    }
    bias += slope / curve;
  }
  return Math.min(MOST_BIAS, Math.max(LEAST_BIAS, bias));
}

function settingsFor(takes: readonly Take[]): { readonly warp: number; readonly bias: number } {
  const warp = warpFor(takes);
  return { warp, bias: biasFor(takes.map((take) => viewAt(take, warp))) };
}

/**
 * What suits the voice of these takes, and what it gains: each phrase is judged by what the others fitted. `acceptOdds` are the
 * odds from which the engine accepts. At least two takes.
 */
export function fitPersonal(takes: readonly Take[], acceptOdds: number): Personal {
  assert(takes.length > 1, 'a set-up has phrases');
  const passes = ({ right, odds }: View, bias: number): boolean => right && odds + bias >= acceptOdds;
  const after = takes.filter((take, index) => {
    const { warp, bias } = settingsFor(takes.filter((_, other) => other !== index));
    return passes(viewAt(take, warp), bias);
  }).length;
  const levels = takes.map((take) => take.levelDb).sort((a, b) => a - b);
  return {
    version: 1,
    ...settingsFor(takes),
    speechDb: levels[levels.length >> 1] ?? 0,
    phrases: takes.length,
    before: takes.filter((take) => passes(viewAt(take, 1), 0)).length,
    after,
  };
}
