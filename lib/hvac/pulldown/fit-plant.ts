import { type Belief, COUNT } from "./belief";
import { advance, type PlantState, shownPa } from "./plant";
import type { PulldownTrace } from "./trace";

/** One plant that fits the readings. */
export interface PlantFit {
  readonly unknowns: Float64Array;
  /** Minus the logarithm of belief times fit. */
  readonly cost: number;
}

/** The plants around one that fit nearly as well. */
export interface PlantCloud extends PlantFit {
  /** Lower triangle: unknowns + factor times normal deviates are plants as likely as the readings allow. */
  readonly factor: Float64Array;
  readonly logVolume: number;
}

const STEPS = 14;
const GIVE_UP_STEP = 6;
const GIVE_UP_COST = 50;

/**
 * Minus the logarithm of belief times fit, with the readings' weighted departures from what this plant would have
 * shown in `out`; infinite, and `out` unfinished, once it is above `limit`.
 */
export function costOf(
  belief: Belief,
  trace: PulldownTrace,
  unknowns: Float64Array,
  out: Float64Array,
  limit = Number.POSITIVE_INFINITY,
  state: PlantState = { pressurePa: 0, waterLeft: 0, chilled: 0, atS: 0 },
): number {
  const { timeS, logPa, spread } = trace;
  let cost = 0;
  for (let index = 0; index < COUNT; index++)
    cost += 0.5 * ((unknowns[index]! - belief.centre[index]!) / belief.spread[index]!) ** 2;
  const plant = belief.plantAt(unknowns);
  state.pressurePa = Math.exp(unknowns[COUNT - 1]!);
  state.waterLeft = plant.water;
  state.chilled = 0;
  state.atS = timeS[0]!;
  for (let index = 0; index < timeS.length; index++) {
    advance(plant, state, timeS[index]!);
    const away = softened((logPa[index]! - Math.log(shownPa(plant, state.pressurePa))) / spread[index]!);
    out[index] = away;
    cost += 0.5 * away * away;
    if (!(cost <= limit)) return Number.POSITIVE_INFINITY;
  }
  return cost;
}

/** Beyond three spreads a departure counts less and less: the lumped plant is wrong somewhere, not everywhere. */
function softened(away: number): number {
  const size = Math.abs(away);
  return size <= 3 ? away : Math.sign(away) * Math.sqrt(9 + 9 * Math.log1p(Math.min(size, 1e9) - 3));
}

/** Levenberg-Marquardt from one start; null where it comes to a plant already found, or stays far above the least cost. */
export function fitPlant(
  belief: Belief,
  trace: PulldownTrace,
  start: Float64Array,
  found: readonly PlantFit[],
): PlantFit | null {
  const leastCost = Math.min(...found.map((other) => other.cost));
  const tried = new Float64Array(trace.timeS.length);
  let residual = new Float64Array(trace.timeS.length);
  let x = Float64Array.from(start);
  let cost = costOf(belief, trace, x, residual);
  let damping = 0.1;
  for (let step = 0; step < STEPS; step++) {
    const { matrix, gradient } = curvature(belief, trace, x, residual, 1e-3);
    const before = cost;
    for (let attempt = 0; attempt < 4 && cost === before; attempt++) {
      const damped = Float64Array.from(matrix);
      for (let index = 0; index < COUNT; index++) damped[index * COUNT + index]! *= 1 + damping;
      const change = solveWith(cholesky(damped), gradient);
      const next = new Float64Array(COUNT);
      for (let index = 0; index < COUNT; index++)
        next[index] = x[index]! - Math.max(-1.5, Math.min(1.5, change[index]!));
      const nextCost = costOf(belief, trace, next, tried, cost);
      if (nextCost < cost) {
        x = next;
        cost = nextCost;
        residual = Float64Array.from(tried);
        damping = Math.max(damping / 4, 1e-4);
      } else damping *= 5;
    }
    if (step >= GIVE_UP_STEP && cost > leastCost + GIVE_UP_COST) return null;
    if (found.some((other) => cost < other.cost + 2 && isSame(x, other.unknowns))) return null;
    if (before - cost <= 0.01) break;
  }
  return { unknowns: x, cost };
}

/** Whether two searches came to one place. */
export function isSame(a: Float64Array, b: Float64Array): boolean {
  return a.every((value, index) => Math.abs(value - b[index]!) < 0.35);
}

export function cloudAbout(belief: Belief, trace: PulldownTrace, fit: PlantFit): PlantCloud {
  const residual = new Float64Array(trace.timeS.length);
  costOf(belief, trace, fit.unknowns, residual);
  const root = cholesky(curvature(belief, trace, fit.unknowns, residual, 0.02).matrix);
  let logVolume = 0;
  for (let index = 0; index < COUNT; index++) logVolume -= Math.log(root[index * COUNT + index]!);
  return { ...fit, factor: inverseTransposed(root), logVolume };
}

/** Second and first slopes of the cost at `x`, by steps of `reach` in each unknown's spread. */
function curvature(belief: Belief, trace: PulldownTrace, x: Float64Array, residual: Float64Array, reach: number) {
  const points = residual.length;
  const slopes = new Float64Array(COUNT * points);
  const moved = Float64Array.from(x);
  const shown = new Float64Array(points);
  for (let column = 0; column < COUNT; column++) {
    const h = reach * belief.spread[column]!;
    moved[column] = x[column]! + h;
    costOf(belief, trace, moved, shown);
    moved[column] = x[column]!;
    for (let index = 0; index < points; index++)
      slopes[column * points + index] = (shown[index]! - residual[index]!) / h;
  }
  const matrix = new Float64Array(COUNT * COUNT);
  const gradient = new Float64Array(COUNT);
  for (let i = 0; i < COUNT; i++) {
    const a = slopes.subarray(i * points, (i + 1) * points);
    for (let j = 0; j <= i; j++) {
      const b = slopes.subarray(j * points, (j + 1) * points);
      let sum = 0;
      for (let index = 0; index < points; index++) sum += a[index]! * b[index]!;
      matrix[i * COUNT + j] = matrix[j * COUNT + i] = sum;
    }
    let slope = 0;
    for (let index = 0; index < points; index++) slope += a[index]! * residual[index]!;
    matrix[i * COUNT + i]! += 1 / belief.spread[i]! ** 2;
    gradient[i] = slope + (x[i]! - belief.centre[i]!) / belief.spread[i]! ** 2;
  }
  return { matrix, gradient };
}

/** Lower root of a symmetric positive matrix. */
function cholesky(matrix: Float64Array): Float64Array {
  const root = new Float64Array(COUNT * COUNT);
  for (let i = 0; i < COUNT; i++)
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * COUNT + j]!;
      for (let k = 0; k < j; k++) sum -= root[i * COUNT + k]! * root[j * COUNT + k]!;
      root[i * COUNT + j] = i === j ? Math.sqrt(Math.max(sum, 1e-12)) : sum / root[j * COUNT + j]!;
    }
  return root;
}

function solveWith(root: Float64Array, right: Float64Array): Float64Array {
  const y = Float64Array.from(right);
  for (let i = 0; i < COUNT; i++) {
    for (let k = 0; k < i; k++) y[i]! -= root[i * COUNT + k]! * y[k]!;
    y[i]! /= root[i * COUNT + i]!;
  }
  for (let i = COUNT - 1; i >= 0; i--) {
    for (let k = i + 1; k < COUNT; k++) y[i]! -= root[k * COUNT + i]! * y[k]!;
    y[i]! /= root[i * COUNT + i]!;
  }
  return y;
}

/** Columns of the transposed inverse of the root, by back substitution: they turn normal deviates into plants. */
function inverseTransposed(root: Float64Array): Float64Array {
  const factor = new Float64Array(COUNT * COUNT);
  for (let column = 0; column < COUNT; column++)
    for (let i = COUNT - 1; i >= 0; i--) {
      let value = i === column ? 1 : 0;
      for (let k = i + 1; k < COUNT; k++) value -= root[k * COUNT + i]! * factor[k * COUNT + column]!;
      factor[i * COUNT + column] = value / root[i * COUNT + i]!;
    }
  return factor;
}
