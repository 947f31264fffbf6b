import { type Curve, shapeOf } from "./contributions";
import { type Held, type Solution, solveNonNegative } from "./least-squares";
import { LEAK, LEVEL, type RiseModel } from "./rise-model";

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

const BOUND_STEPS = 12;
const BOUND_TOLERANCE = 0.04;

export function fitRise(model: RiseModel, penalty: number, start?: Solution): RiseFit {
  return { model, best: solveNonNegative(model.equations, [], start), penalty };
}

export function leakOf({ model }: RiseFit, solution: Solution): number {
  return solution.scaled[LEAK]! / model.equations.scale[LEAK]!;
}

export function levelOf({ model }: RiseFit, solution: Solution): number {
  return model.centrePa + solution.scaled[LEVEL]! / model.equations.scale[LEVEL]!;
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
  const heldLeak = [LEAK, leak * scale[LEAK]!] as const;
  const heldLevel = [LEVEL, (level - model.centrePa) * scale[LEVEL]!] as const;
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
  const { solution, value } = bound(fit, LEAK, direction, allowance, 0);
  return { solution, value: value / fit.model.equations.scale[LEAK]! };
}

export function boundLevel(fit: RiseFit, direction: 1 | -1, allowance: number): Bound {
  const { model } = fit;
  const scale = model.equations.scale[LEVEL]!;
  const { solution, value } = bound(fit, LEVEL, direction, allowance, -model.centrePa * scale);
  return { solution, value: model.centrePa + value / scale };
}

/**
 * Profile likelihood along one coefficient: step outward, then close in on the allowance from both sides. Ends on the
 * far side of the allowance where it has not closed in: a bound may be too wide, never too narrow.
 */
function bound(fit: RiseFit, index: number, direction: 1 | -1, allowance: number, lowest: number): Bound {
  const { model, best } = fit;
  const centre = best.scaled[index]!;
  const reach = direction < 0 ? centre - lowest : Number.POSITIVE_INFINITY;
  if (reach <= 0) return { value: centre, solution: best };
  const goal = Math.sqrt(allowance);
  let inside = { step: 0, root: 0, solution: best };
  let outside: typeof inside | null = null;
  let step = Math.min(goal, reach);
  let sameSide = 0;
  for (let round = 0; round < BOUND_STEPS; round++) {
    const held: Held = [[index, centre + direction * step]];
    const solution = solveNonNegative(model.equations, held, inside.solution);
    const tried = { step, root: Math.sqrt(Math.max(0, solution.misfit - best.misfit)), solution };
    const closeEnough = Math.abs(tried.root - goal) < BOUND_TOLERANCE * goal;
    if (closeEnough || (tried.root <= goal && step >= reach)) return { value: centre + direction * step, solution };
    const wasInside = tried.root <= goal;
    sameSide = wasInside ? Math.max(sameSide, 0) + 1 : Math.min(sameSide, 0) - 1;
    if (wasInside) inside = tried;
    else outside = tried;
    if (!outside) step = Math.min(reach, step * Math.min(Math.max((1.05 * goal) / Math.max(tried.root, 1e-9), 1.3), 8));
    else if (Math.abs(sameSide) >= 2) step = (inside.step + outside.step) / 2;
    else step = inside.step + ((outside.step - inside.step) * (goal - inside.root)) / (outside.root - inside.root);
  }
  return { value: centre + direction * (outside?.step ?? inside.step), solution: inside.solution };
}

/** The pressure in Pa this solution has at any moment. */
export function curveOf({ model }: RiseFit, solution: Solution): Curve {
  const used: { readonly weight: number; readonly shape: Curve }[] = [];
  for (const [index, contribution] of model.contributions.entries()) {
    const scaled = solution.scaled[index]!;
    if (scaled !== 0) used.push({ weight: scaled / model.equations.scale[index]!, shape: shapeOf(contribution) });
  }
  return (moment) => {
    let pressurePa = model.centrePa * moment.temperatureRatio;
    for (const { weight, shape } of used) pressurePa += weight * shape(moment);
    return pressurePa;
  };
}
