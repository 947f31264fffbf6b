/** Weighted sums of squares of a linear model: all a fit needs, whatever the number of readings. */
export interface NormalEquations {
  readonly size: number;
  /** Row by row, size x size; each diagonal element is 1 (columns are scaled by `scale`). */
  readonly gram: Float64Array;
  readonly target: Float64Array;
  readonly targetSquare: number;
  /** Column norms: a coefficient of the model is the scaled coefficient divided by its norm. */
  readonly scale: Float64Array;
  /** 1 where the coefficient may be negative. */
  readonly signed: Uint8Array;
}

export interface Solution {
  /** In scaled columns. */
  readonly scaled: Float64Array;
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
  const { size, gram, target, signed } = equations;
  const scaled = new Float64Array(size);
  const fixed = new Uint8Array(size);
  const goal = Float64Array.from(target);
  for (const [index, value] of held) {
    fixed[index] = 1;
    scaled[index] = value;
    for (let row = 0; row < size; row++) goal[row]! -= gram[row * size + index]! * value;
  }
  const active: number[] = [];
  for (let index = 0; index < size; index++) {
    if (fixed[index]) continue;
    const value = start?.scaled[index] ?? 0;
    if (!signed[index] && !(value > 0)) continue;
    scaled[index] = value;
    active.push(index);
  }
  let last = -1;
  for (let step = 0; step < MAX_STEPS; step++) {
    descend(equations, goal, scaled, active);
    const entered = active[active.length - 1];
    if (step > 0 && entered !== last) fixed[last] = 1; // left at once: rounding, not progress
    last = steepest(equations, goal, scaled, active, fixed);
    if (last < 0) break;
    active.push(last);
  }
  return { scaled, misfit: misfitOf(equations, scaled) };
}

/** Moves to the least-squares point of the active coefficients, dropping those that would turn negative. */
function descend(equations: NormalEquations, goal: Float64Array, scaled: Float64Array, active: number[]): void {
  const { signed } = equations;
  while (active.length > 0) {
    const wanted = solveActive(equations, goal, active);
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
    }
  }
}

/** The inactive coefficient that lowers the misfit fastest, or -1 where none does. */
function steepest(
  { size, gram }: NormalEquations,
  goal: Float64Array,
  scaled: Float64Array,
  active: readonly number[],
  fixed: Uint8Array,
): number {
  let best = -1;
  let bestGain = GAIN;
  for (let index = 0; index < size; index++) {
    if (fixed[index] || active.includes(index)) continue;
    let gain = goal[index]!;
    for (const other of active) gain -= gram[index * size + other]! * scaled[other]!;
    if (gain > bestGain) {
      bestGain = gain;
      best = index;
    }
  }
  return best;
}

/** Cholesky solution for the active coefficients alone. */
function solveActive({ size, gram }: NormalEquations, goal: Float64Array, active: readonly number[]): Float64Array {
  const n = active.length;
  const lower = new Float64Array(n * n);
  const solution = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const row = active[i]! * size;
    for (let j = 0; j <= i; j++) {
      let sum = gram[row + active[j]!]! + (i === j ? RIDGE : 0);
      for (let k = 0; k < j; k++) sum -= lower[i * n + k]! * lower[j * n + k]!;
      lower[i * n + j] = i === j ? Math.sqrt(Math.max(sum, RIDGE)) : sum / lower[j * n + j]!;
    }
    let sum = goal[active[i]!]!;
    for (let k = 0; k < i; k++) sum -= lower[i * n + k]! * solution[k]!;
    solution[i] = sum / lower[i * n + i]!;
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = solution[i]!;
    for (let k = i + 1; k < n; k++) sum -= lower[k * n + i]! * solution[k]!;
    solution[i] = sum / lower[i * n + i]!;
  }
  return solution;
}

function misfitOf({ size, gram, target, targetSquare }: NormalEquations, scaled: Float64Array): number {
  let misfit = targetSquare;
  for (let i = 0; i < size; i++) {
    const value = scaled[i]!;
    if (value === 0) continue;
    let product = 0;
    for (let j = 0; j < size; j++) product += gram[i * size + j]! * scaled[j]!;
    misfit += value * (product - 2 * target[i]!);
  }
  return Math.max(misfit, 0);
}
