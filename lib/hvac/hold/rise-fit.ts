import type { FitPoint } from "./fit-points";
import { type Held, type Solution, solveNonNegative } from "./least-squares";
import { type Moment, type RiseModel, shapeAt } from "./rise-model";

/** A model fitted to a record; misfits and bounds are in units of the noise, before any widening. */
export interface RiseFit {
  readonly model: RiseModel;
  readonly best: Solution;
  /** Added to every misfit of this model for the freedom it has over the simplest one. */
  readonly penalty: number;
}

/** What is asked of the circuit: nothing, a leak no faster, a level no higher. */
export interface Claim {
  readonly leakAtMostPaPerS?: number;
  readonly levelAtMostPa?: number;
}

const BOUND_STEPS = 9;
const BOUND_TOLERANCE = 0.03;

export function fitRise(model: RiseModel, penalty: number, start?: Solution): RiseFit {
  return { model, best: solveNonNegative(model.equations, [], start), penalty };
}

export function leakOf({ model }: RiseFit, solution: Solution): number {
  return solution.scaled[model.leakIndex]! / model.equations.scale[model.leakIndex]!;
}

export function levelOf({ model }: RiseFit, solution: Solution): number {
  return model.centrePa + solution.scaled[model.levelIndex]! / model.equations.scale[model.levelIndex]!;
}

/** The fit that comes nearest to the readings among those the claim allows; its misfit is convex in each limit. */
export function fitClaim(fit: RiseFit, { leakAtMostPaPerS, levelAtMostPa }: Claim): Solution {
  const { model, best } = fit;
  const { scale } = model.equations;
  const leak = leakAtMostPaPerS ?? Number.POSITIVE_INFINITY;
  const level = levelAtMostPa ?? Number.POSITIVE_INFINITY;
  const leakFits = leakOf(fit, best) <= leak;
  const levelFits = levelOf(fit, best) <= level;
  if (leakFits && levelFits) return best;
  const heldLeak = [model.leakIndex, leak * scale[model.leakIndex]!] as const;
  const heldLevel = [model.levelIndex, (level - model.centrePa) * scale[model.levelIndex]!] as const;
  if (!leakFits) {
    const held = solveNonNegative(model.equations, [heldLeak], best);
    if (levelOf(fit, held) <= level) return held;
  }
  if (!levelFits) {
    const held = solveNonNegative(model.equations, [heldLevel], best);
    if (leakOf(fit, held) <= leak) return held;
  }
  return solveNonNegative(model.equations, [heldLeak, heldLevel], best);
}

export interface Bound {
  readonly value: number;
  readonly solution: Solution;
}

/** The highest or lowest leak whose best fit is worse than the best of all by no more than `allowance`. */
export function boundLeak(fit: RiseFit, direction: 1 | -1, allowance: number): Bound {
  const { solution, value } = bound(fit, fit.model.leakIndex, direction, allowance, 0);
  return { solution, value: value / fit.model.equations.scale[fit.model.leakIndex]! };
}

export function boundLevel(fit: RiseFit, direction: 1 | -1, allowance: number): Bound {
  const { model } = fit;
  const scale = model.equations.scale[model.levelIndex]!;
  const { solution, value } = bound(fit, model.levelIndex, direction, allowance, -model.centrePa * scale);
  return { solution, value: model.centrePa + value / scale };
}

/** Profile likelihood along one coefficient: step outward, then close in on the allowance from both sides. */
function bound(fit: RiseFit, index: number, direction: 1 | -1, allowance: number, lowest: number): Bound {
  const { model, best } = fit;
  const centre = best.scaled[index]!;
  const reach = direction < 0 ? centre - lowest : Number.POSITIVE_INFINITY;
  if (reach <= 0) return { value: centre, solution: best };
  let inside = 0;
  let insideRoot = 0;
  let outside = Number.POSITIVE_INFINITY;
  let outsideRoot = 0;
  let step = Math.min(Math.sqrt(allowance), reach);
  let solution = best;
  const goal = Math.sqrt(allowance);
  for (let round = 0; round < BOUND_STEPS; round++) {
    const held: Held = [[index, centre + direction * step]];
    const tried = solveNonNegative(model.equations, held, solution);
    const root = Math.sqrt(Math.max(0, tried.misfit - best.misfit));
    if (root <= goal) {
      inside = step;
      insideRoot = root;
      solution = tried;
      if (step >= reach || goal - root < BOUND_TOLERANCE * goal) break;
    } else {
      outside = step;
      outsideRoot = root;
    }
    if (outside === Number.POSITIVE_INFINITY) step *= Math.min(Math.max(goal / Math.max(root, 1e-9), 1.2), 8) * 1.02;
    else step = inside + ((outside - inside) * (goal - insideRoot)) / (outsideRoot - insideRoot);
    step = Math.min(step, reach);
  }
  return { value: centre + direction * Math.max(inside, Math.min(step, outside)), solution };
}

/** Pressure in Pa this solution has at a moment. */
export function pressureAt({ model }: RiseFit, solution: Solution, moment: Moment): number {
  let pressurePa = model.centrePa * moment.temperatureRatio;
  for (let index = 0; index < model.contributions.length; index++) {
    const scaled = solution.scaled[index]!;
    if (scaled === 0) continue;
    pressurePa += (scaled / model.equations.scale[index]!) * shapeAt(model.contributions[index]!, moment);
  }
  return pressurePa;
}

/** Deviations of the points from a solution, each over its own noise. */
export function residuals(fit: RiseFit, solution: Solution, points: readonly FitPoint[]): Float64Array {
  return Float64Array.from(points, (point) => {
    return (point.pressurePa - pressureAt(fit, solution, point)) / point.sigmaPa;
  });
}
