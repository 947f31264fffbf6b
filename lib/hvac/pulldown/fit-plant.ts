import { type Belief, COUNT } from "./belief";
import { advance, type PlantState, shownPa } from "./plant";
import type { PulldownTrace } from "./trace";

/** One plant that fits the readings, with the spread of plants around it that fit nearly as well. */
export interface PlantFit {
  readonly unknowns: Float64Array;
  /** Minus the logarithm of belief times fit. */
  readonly cost: number;
  /** Lower triangle: unknowns + factor times normal deviates are plants as likely as the readings allow. */
  readonly factor: Float64Array;
  readonly logVolume: number;
}

const STEPS = 14;
const GIVE_UP_STEP = 6;
const GIVE_UP_COST = 50;

/** Weighted departures of the readings from what this plant would have shown; the state ends at the last reading. */
export function departures(
  belief: Belief,
  trace: PulldownTrace,
  unknowns: Float64Array,
  out: Float64Array,
): PlantState {
  const plant = belief.plantAt(unknowns);
  const state = {
    pressurePa: Math.exp(unknowns[COUNT - 1]!),
    waterLeft: plant.water,
    chilled: 0,
    atS: trace.timeS[0]!,
  };
  for (let index = 0; index < trace.timeS.length; index++) {
    advance(plant, state, trace.timeS[index]!);
    const away = (trace.logPa[index]! - Math.log(shownPa(plant, state.pressurePa))) / trace.spread[index]!;
    out[index] = softened(away);
  }
  return state;
}

/** Beyond three spreads a departure counts less and less: the lumped plant is wrong somewhere, not everywhere. */
function softened(away: number): number {
  const size = Math.abs(away);
  return size <= 3 ? away : Math.sign(away) * Math.sqrt(9 + 9 * Math.log1p(Math.min(size, 1e9) - 3));
}

export function costOf(belief: Belief, unknowns: Float64Array, residual: Float64Array): number {
  let cost = 0;
  for (const away of residual) cost += 0.5 * away * away;
  for (let index = 0; index < COUNT; index++)
    cost += 0.5 * ((unknowns[index]! - belief.centre[index]!) / belief.spread[index]!) ** 2;
  return cost;
}

/** Levenberg-Marquardt from one start; given up where it stays far above the least cost found elsewhere. */
export function fitPlant(
  belief: Belief,
  trace: PulldownTrace,
  start: Float64Array,
  leastCost: number,
): PlantFit | null {
  const points = trace.timeS.length;
  let x = Float64Array.from(start);
  let residual = new Float64Array(points);
  departures(belief, trace, x, residual);
  let cost = costOf(belief, x, residual);
  let damping = 0.1;
  const tried = new Float64Array(points);
  const slopes = Array.from({ length: COUNT }, () => new Float64Array(points));
  const curved = (reach: number) => {
    for (let column = 0; column < COUNT; column++) {
      const h = reach * belief.spread[column]!;
      const moved = Float64Array.from(x);
      moved[column]! += h;
      departures(belief, trace, moved, tried);
      for (let index = 0; index < points; index++) slopes[column]![index] = (tried[index]! - residual[index]!) / h;
    }
    return curvature(belief, x, residual, slopes);
  };
  for (let step = 0; step < STEPS; step++) {
    const { matrix, gradient } = curved(1e-3);
    const before = cost;
    for (let attempt = 0; attempt < 4 && cost === before; attempt++) {
      const damped = Float64Array.from(matrix);
      for (let index = 0; index < COUNT; index++) damped[index * COUNT + index]! *= 1 + damping;
      const change = solveWith(cholesky(damped), gradient);
      const next = x.map((value, index) => value - Math.max(-1.5, Math.min(1.5, change[index]!)));
      departures(belief, trace, next, tried);
      const nextCost = costOf(belief, next, tried);
      if (nextCost < cost) {
        x = next;
        cost = nextCost;
        residual = Float64Array.from(tried);
        damping = Math.max(damping / 4, 1e-4);
      } else damping *= 5;
    }
    if (step >= GIVE_UP_STEP && cost > leastCost + GIVE_UP_COST) return null;
    if (before - cost <= 0.01) break;
  }
  const root = cholesky(curved(0.02).matrix);
  let logVolume = 0;
  for (let index = 0; index < COUNT; index++) logVolume -= Math.log(root[index * COUNT + index]!);
  return { unknowns: x, cost, factor: inverseTransposed(root), logVolume };
}

function curvature(belief: Belief, x: Float64Array, residual: Float64Array, jacobian: readonly Float64Array[]) {
  const matrix = new Float64Array(COUNT * COUNT);
  const gradient = new Float64Array(COUNT);
  for (let i = 0; i < COUNT; i++) {
    const a = jacobian[i]!;
    for (let j = 0; j <= i; j++) {
      const b = jacobian[j]!;
      let sum = 0;
      for (let index = 0; index < a.length; index++) sum += a[index]! * b[index]!;
      matrix[i * COUNT + j] = matrix[j * COUNT + i] = sum;
    }
    let slope = 0;
    for (let index = 0; index < a.length; index++) slope += a[index]! * residual[index]!;
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
