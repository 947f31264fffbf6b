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

/** A stray lies outside what stands before and after it, by far more than the series usually does. */
function keepMask(values: readonly number[], leastStep: number): boolean[] {
  const departures = values.map((_, index) => departure(values, index));
  const limit = Math.max(leastStep, 12 * median(departures));
  return departures.map((away, index) => {
    const atEnd = index === 0 || index === values.length - 1;
    // At an end nothing stands on the far side, and gas that settles moves fast: only the absurd is a stray.
    return away <= (atEnd ? Math.max(limit, 0.25 * Math.abs(values[index === 0 ? 1 : index - 1] ?? 0)) : limit);
  });
}

/** Distance outside the stretch between the middle of the three before and the middle of the three after. */
function departure(values: readonly number[], index: number): number {
  const value = values[index]!;
  const before = values.slice(Math.max(0, index - 3), index);
  const after = values.slice(index + 1, index + 4);
  const left = before.length > 0 ? median(before) : median(after);
  const right = after.length > 0 ? median(after) : left;
  return Math.max(0, value - Math.max(left, right), Math.min(left, right) - value);
}

function withoutStrays(values: readonly number[], leastStep: number): number[] {
  if (values.length < 5) return [...values];
  const kept = keepMask(values, leastStep);
  return values.map((value, index) => (kept[index] ? value : median(values.slice(Math.max(0, index - 2), index + 3))));
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : ((sorted[middle - 1] ?? 0) + (sorted[middle] ?? 0)) / 2;
}
