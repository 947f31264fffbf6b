import type { Cell, ReadingLog } from "./cells";
import type { HoldTerms } from "./record";

/** One cell as the fit sees it: a mean reading, how far it may be off by chance, and the warmth of the gas. */
export interface FitPoint {
  readonly atS: number;
  readonly pressurePa: number;
  readonly sigmaPa: number;
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
const UNIFORM_VARIANCE = 1 / 12;

/** The cells of a record as points to fit, with the noise the readings themselves show. */
export function fitPoints(log: ReadingLog, terms: HoldTerms): readonly FitPoint[] {
  const { cells } = log;
  const warming = warmingPerCell(cells);
  const runs = flatRuns(cells);
  return cells.map((cell, index) => {
    const pressurePa = cell.sumPa / cell.count;
    const stepPa = stepNear(cells, index, terms.gauge.resolutionPa);
    const variancePa2 =
      scatterNear(cells, index, stepPa) / cell.count +
      (stepPa ** 2 * UNIFORM_VARIANCE * runs[index]!) / (1 + cell.moves) +
      (MODEL_FRACTION * pressurePa) ** 2;
    const warmingK = warming ? warming.aboveStartK[index]! : 0;
    return {
      atS: cell.sumS / cell.count,
      pressurePa,
      sigmaPa: Math.sqrt(variancePa2),
      temperatureRatio: warming ? 1 + warmingK / warming.startK : 1,
      warmingK,
    };
  });
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

/** The step the gauge moves in about this pressure: its resolution, or coarser where the readings show it. */
function stepNear(cells: readonly Cell[], index: number, resolutionPa: number): number {
  let smallestPa = Number.POSITIVE_INFINITY;
  let moves = 0;
  for (let near = Math.max(0, index - WINDOW); near <= Math.min(cells.length - 1, index + WINDOW); near++) {
    smallestPa = Math.min(smallestPa, cells[near]!.smallestMovePa);
    moves += cells[near]!.moves;
  }
  const seen = moves >= 3 && smallestPa < 200 * resolutionPa;
  return seen ? Math.max(smallestPa, resolutionPa) : resolutionPa;
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
