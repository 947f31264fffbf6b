import type { PressureTestRecord } from "./record";

/** The readings as the estimate uses them: seconds from the first reading, absolute pressure, strays taken out. */
export interface PressureSeries {
  readonly timeS: Float64Array;
  readonly pressureAbsPa: Float64Array;
  readonly temperatureK: Float64Array;
  readonly strays: number;
}

/** Drops single readings that no gas could have made (a dropped radio packet), never two in a row that agree. */
export function cleanSeries(record: PressureTestRecord): PressureSeries {
  const { readings, atmosphericPa, gauge } = record;
  const firstS = readings[0]?.atS ?? 0;
  const pressures = readings.map((reading) => reading.gaugePa + atmosphericPa);
  const temperatures = withoutStrays(
    readings.map((reading) => reading.temperatureK),
    3,
  );
  const kept = keepMask(pressures, 6 * Math.max(gauge.resolutionPa, 1));
  const count = kept.reduce((sum, keep) => sum + (keep ? 1 : 0), 0);
  const timeS = new Float64Array(count);
  const pressureAbsPa = new Float64Array(count);
  const temperatureK = new Float64Array(count);
  let to = 0;
  for (const [from, reading] of readings.entries()) {
    if (!kept[from]) continue;
    timeS[to] = reading.atS - firstS;
    pressureAbsPa[to] = pressures[from]!;
    temperatureK[to] = temperatures[from]!;
    to++;
  }
  return { timeS, pressureAbsPa, temperatureK, strays: readings.length - count };
}

/** A stray stands off from the line through its neighbours by far more than the series usually does. */
function keepMask(values: readonly number[], leastStep: number): boolean[] {
  const departures = values.map((value, index) => Math.abs(value - neighbourMedian(values, index)));
  const typical = median(departures);
  return departures.map((departure) => departure <= Math.max(leastStep, 12 * typical));
}

function withoutStrays(values: readonly number[], leastStep: number): number[] {
  const kept = keepMask(values, leastStep);
  return values.map((value, index) => (kept[index] ? value : neighbourMedian(values, index)));
}

/** Median of the readings beside this one: two to the left, two to the right, as far as there are any. */
function neighbourMedian(values: readonly number[], index: number): number {
  if (values.length < 5) return values[index]!;
  const start = Math.max(0, Math.min(index - 2, values.length - 5));
  return median(values.slice(start, start + 5));
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : ((sorted[middle - 1] ?? 0) + (sorted[middle] ?? 0)) / 2;
}
