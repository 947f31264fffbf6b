import type { Cell } from "./cell";
import { greatestCommonDivisor, type ReadingLog } from "./cells";
import type { HoldTerms } from "./record";

/** One cell as the fit sees it: a mean reading, how far it may be off by chance, and the warmth of the gas. */
export interface FitPoint {
  readonly atS: number;
  readonly pressurePa: number;
  readonly sigmaPa: number;
  /** What the gauge moves in here: its resolution, or coarser. */
  readonly stepPa: number;
  /** Gas temperature over the one at isolation; 1 throughout where no temperatures were taken. */
  readonly temperatureRatio: number;
  readonly warmingK: number;
}

/** Scatter of a reading assumed until the readings show their own. [own choice] */
const ASSUMED_SCATTER_FRACTION = 0.002;
const ASSUMED_SCATTER_STEPS = 0.3;
const ASSUMED_WEIGHT = 4;
const WINDOW = 3;
/** No mean of readings is trusted closer than this share of the pressure: the physics is not that exact. */
const MODEL_FRACTION = 0.0004;
const MODEL_RISE_FRACTION = 0.0015;
/** A sharp turn inside a cell moves its mean: this share of the turn. */
const MODEL_BEND_FRACTION = 0.15;
const UNIFORM_VARIANCE = 1 / 12;
/** Scatter above this share of a step carries the mean of many readings across the steps: no rounding error is left. */
const DITHER_SHARE = 0.4;
const ALONE = 4;
const SHARING = 3;
/** Most gauges that coarsen do so tenfold: no more is presumed of one value shown throughout. */
const UNPROVEN_STEP = 10;
const COARSER_STEPS = [100, 50, 20, 10, 5, 2] as const;

/** The cells of a record as points to fit, with the noise the readings themselves show. */
export function fitPoints(log: ReadingLog, terms: HoldTerms): readonly FitPoint[] {
  const { cells } = log;
  const warming = warmingPerCell(cells);
  const runs = flatRuns(cells);
  const firstPa = cells[0]!.sumPa / cells[0]!.count;
  return cells.map((cell, index) => {
    const pressurePa = cell.sumPa / cell.count;
    const stepPa = stepNear(cells, index, terms.gauge.resolutionPa);
    const scatterPa2 = scatterNear(cells, index, stepPa);
    const dithered = Math.min(1, scatterPa2 / (DITHER_SHARE * stepPa) ** 2);
    const variancePa2 =
      scatterPa2 / cell.count +
      ((1 - dithered) * stepPa ** 2 * UNIFORM_VARIANCE * runs[index]!) / (1 + cell.moves) +
      (MODEL_FRACTION * pressurePa) ** 2 +
      (MODEL_RISE_FRACTION * (pressurePa - firstPa)) ** 2 +
      (MODEL_BEND_FRACTION * bendAt(cells, index)) ** 2;
    const warmingK = warming ? warming.aboveStartK[index]! : 0;
    return {
      atS: cell.sumS / cell.count,
      pressurePa,
      sigmaPa: Math.sqrt(variancePa2),
      stepPa,
      temperatureRatio: warming ? 1 + warmingK / warming.startK : 1,
      warmingK,
    };
  });
}

/** How far a cell's mean lies off the line between its neighbours, in Pa. */
function bendAt(cells: readonly Cell[], index: number): number {
  const [before, cell, after] = [cells[index - 1], cells[index]!, cells[index + 1]];
  if (!before || !after) return 0;
  const [beforePa, pressurePa, afterPa] = [meanPa(before), meanPa(cell), meanPa(after)];
  const [beforeS, atS, afterS] = [meanS(before), meanS(cell), meanS(after)];
  const share = afterS > beforeS ? (atS - beforeS) / (afterS - beforeS) : 0.5;
  return pressurePa - beforePa - share * (afterPa - beforePa);
}

function meanPa({ sumPa, count }: Cell): number {
  return sumPa / count;
}

function meanS({ sumS, count }: Cell): number {
  return sumS / count;
}

/** Variance of one reading's scatter in Pa2, from this cell and its neighbours. */
function scatterNear(cells: readonly Cell[], index: number, stepPa: number): number {
  const pressurePa = cells[index]!.sumPa / cells[index]!.count;
  const assumed = (ASSUMED_SCATTER_FRACTION * pressurePa) ** 2 + (ASSUMED_SCATTER_STEPS * stepPa) ** 2;
  let sum = assumed * ASSUMED_WEIGHT;
  let weight = ASSUMED_WEIGHT;
  for (let near = Math.max(0, index - WINDOW); near <= Math.min(cells.length - 1, index + WINDOW); near++) {
    sum += cells[near]!.sumBendPa2;
    weight += cells[near]!.bends;
  }
  return sum / weight;
}

/**
 * The step the gauge moves in about this pressure: its resolution, or coarser where the readings share a divisor.
 *
 * Gauges coarsen at a pressure of their own, so the cells before and after are asked apart.
 */
function stepNear(cells: readonly Cell[], index: number, resolutionPa: number): number {
  const { count, moves, commonSteps } = cells[index]!;
  const alone = count >= ALONE && moves >= 2 ? coarserStep(commonSteps) : 1;
  const [before, after] = [sharedStep(cells, index, -1), sharedStep(cells, index, 1)];
  const shared =
    before === null && after === null
      ? Math.min(coarserStep(commonSteps), UNPROVEN_STEP)
      : Math.max(before ?? 1, after ?? 1);
  return resolutionPa * Math.max(alone, shared);
}

/** The step shared by this cell and those beside it, as many as it takes to see a second value: one alone shows none. */
function sharedStep(cells: readonly Cell[], index: number, direction: 1 | -1): number | null {
  const { decade, commonSteps } = cells[index]!;
  let common = commonSteps;
  let differs = cells[index]!.moves >= 2;
  for (let beside = 1; beside < SHARING || !differs; beside++) {
    const cell = cells[index + direction * beside];
    if (!cell || cell.decade !== decade) return differs ? 1 : null;
    differs ||= cell.commonSteps !== commonSteps;
    common = greatestCommonDivisor(cell.commonSteps, common);
  }
  return coarserStep(common);
}

function coarserStep(commonSteps: number): number {
  return COARSER_STEPS.find((steps) => commonSteps % steps === 0) ?? 1;
}

/** For each cell, how many neighbouring cells show its one unmoved value: they share one rounding error. */
function flatRuns(cells: readonly Cell[]): readonly number[] {
  const runs: number[] = [];
  for (let from = 0; from < cells.length; ) {
    let to = from + 1;
    while (to < cells.length && cells[to]!.moves === 0 && cells[from]!.count > 0) to += 1;
    for (let index = from; index < to; index++) runs.push(to - from);
    from = to;
  }
  return runs;
}

function warmingPerCell(cells: readonly Cell[]): { startK: number; aboveStartK: readonly number[] } | null {
  const known = cells.filter((cell) => cell.temperatures > 0);
  if (known.length < Math.max(2, cells.length / 3)) return null;
  const startK = known[0]!.sumK / known[0]!.temperatures;
  let next = 0;
  const aboveStartK = cells.map((cell) => {
    while (next < known.length - 1 && known[next]!.index < cell.index) next += 1;
    const after = known[next]!;
    const before = known[Math.max(0, next - 1)]!;
    const afterK = after.sumK / after.temperatures - startK;
    const beforeK = before.sumK / before.temperatures - startK;
    if (cell.temperatures > 0 || after === before || cell.index >= after.index) return afterK;
    if (cell.index <= before.index) return beforeK;
    return beforeK + ((afterK - beforeK) * (cell.index - before.index)) / (after.index - before.index);
  });
  return { startK, aboveStartK };
}
