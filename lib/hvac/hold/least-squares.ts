/** Weighted sums of squares of a linear model: all a fit needs, whatever the number of readings. */
export interface NormalEquations {
  /** Each diagonal element is 1 (columns are scaled by `scale`). */
  readonly gram: readonly (readonly number[])[];
  readonly target: readonly number[];
  readonly targetSquare: number;
  /** Column norms: a coefficient of the model is the scaled coefficient divided by its norm. */
  readonly scale: readonly number[];
  /** Where the coefficient may be negative. */
  readonly signed: readonly boolean[];
}

export interface Solution {
  /** In scaled columns. */
  readonly scaled: readonly number[];
  readonly misfit: number;
}

/** Coefficients held at a value (scaled), as index and value. */
export type Held = readonly (readonly [index: number, value: number])[];

const RIDGE = 1e-10;
const GAIN = 1e-5;
const MAX_STEPS = 80;

/**
 * Least squares with no coefficient below zero except the signed ones, some held fixed.
 *
 * Active-set method of Lawson and Hanson on the normal equations, started from `start` when it is feasible.
 * @source C. L. Lawson, R. J. Hanson, Solving Least Squares Problems (1974), chapter 23;
 *   R. Bro, S. de Jong, J. Chemometrics 11 (1997) 393 for working on the normal equations [memory]
 */
export function solveNonNegative(equations: NormalEquations, held: Held, start?: Solution): Solution {
  const { gram, target, signed } = equations;
  const goal = [...target];
  const scaled = target.map(() => 0);
  const shut = target.map(() => false);
  for (const [index, value] of held) {
    shut[index] = true;
    scaled[index] = value;
    for (let row = 0; row < goal.length; row++) goal[row]! -= gram[row]![index]! * value;
  }
  const active: number[] = [];
  for (let index = 0; index < goal.length; index++) {
    if (shut[index]) continue;
    const value = start?.scaled[index] ?? 0;
    if (!signed[index] && !(value > 0)) continue;
    scaled[index] = value;
    active.push(index);
  }
  const factor: number[][] = [];
  let last = -1;
  for (let step = 0; step < MAX_STEPS; step++) {
    descend(equations, goal, scaled, active, factor);
    const entered = active[active.length - 1];
    if (step > 0 && entered !== last) shut[last] = true; // left at once: rounding, not progress
    last = steepest(equations, goal, scaled, active, shut);
    if (last < 0) break;
    active.push(last);
  }
  return { scaled, misfit: misfitOf(equations, scaled) };
}

/** Moves to the least-squares point of the active coefficients, dropping those that would turn negative. */
function descend(
  equations: NormalEquations,
  goal: readonly number[],
  scaled: number[],
  active: number[],
  factor: number[][],
): void {
  const { signed } = equations;
  while (active.length > 0) {
    const wanted = solveActive(equations, goal, active, factor);
    let reach = 1;
    for (let k = 0; k < active.length; k++) {
      const index = active[k]!;
      if (signed[index] || wanted[k]! > 0) continue;
      const value = scaled[index]!;
      reach = Math.min(reach, value / (value - wanted[k]!));
    }
    for (let k = 0; k < active.length; k++) {
      const index = active[k]!;
      scaled[index]! += reach * (wanted[k]! - scaled[index]!);
    }
    if (reach >= 1) return;
    for (let k = active.length - 1; k >= 0; k--) {
      const index = active[k]!;
      if (signed[index] || scaled[index]! > 1e-13) continue;
      scaled[index] = 0;
      active.splice(k, 1);
      factor.length = k;
    }
  }
}

/** The inactive coefficient that lowers the misfit fastest, or -1 where none does. */
function steepest(
  { gram }: NormalEquations,
  goal: readonly number[],
  scaled: readonly number[],
  active: readonly number[],
  shut: readonly boolean[],
): number {
  const gains = [...goal];
  for (const other of active) {
    const row = gram[other]!;
    const value = scaled[other]!;
    for (let index = 0; index < gains.length; index++) gains[index]! -= row[index]! * value;
  }
  for (const other of active) gains[other] = 0;
  let best = -1;
  let bestGain = GAIN;
  for (let index = 0; index < gains.length; index++) {
    if (shut[index] || !(gains[index]! > bestGain)) continue;
    bestGain = gains[index]!;
    best = index;
  }
  return best;
}

/** Solution for the active coefficients alone; `factor` is Cholesky's, and the rows it has already still hold. */
function solveActive(
  { gram }: NormalEquations,
  goal: readonly number[],
  active: readonly number[],
  factor: number[][],
): readonly number[] {
  for (let i = factor.length; i < active.length; i++) {
    const from = gram[active[i]!]!;
    const row: number[] = [];
    for (let j = 0; j <= i; j++) {
      const other = factor[j] ?? row;
      let sum = from[active[j]!]! + (i === j ? RIDGE : 0);
      for (let k = 0; k < j; k++) sum -= row[k]! * other[k]!;
      row.push(i === j ? Math.sqrt(Math.max(sum, RIDGE)) : sum / other[j]!);
    }
    factor.push(row);
  }
  const solution: number[] = [];
  for (let i = 0; i < active.length; i++) {
    const row = factor[i]!;
    let sum = goal[active[i]!]!;
    for (let k = 0; k < i; k++) sum -= row[k]! * solution[k]!;
    solution.push(sum / row[i]!);
  }
  for (let i = active.length - 1; i >= 0; i--) {
    let sum = solution[i]!;
    for (let k = i + 1; k < active.length; k++) sum -= factor[k]![i]! * solution[k]!;
    solution[i] = sum / factor[i]![i]!;
  }
  return solution;
}

function misfitOf({ gram, target, targetSquare }: NormalEquations, scaled: readonly number[]): number {
  const used: number[] = [];
  for (let index = 0; index < scaled.length; index++) if (scaled[index] !== 0) used.push(index);
  let misfit = targetSquare;
  for (const i of used) {
    let product = 0;
    for (const j of used) product += gram[i]![j]! * scaled[j]!;
    misfit += scaled[i]! * (product - 2 * target[i]!);
  }
  return Math.max(misfit, 0);
}
