import type { PulldownReading, PulldownRecord } from "./record";

/** The readings condensed for fitting: fewer where the pressure stands, each with its own scatter. */
export interface PulldownTrace {
  readonly timeS: Float64Array;
  readonly logPa: Float64Array;
  /** Standard deviation of `logPa`. */
  readonly spread: Float64Array;
  /** Scatter of one single reading near the end. */
  readonly readingSpread: number;
  readonly lastS: number;
  /** Seconds from one reading to the next. */
  readonly everyS: number;
}

const MOST_POINTS = 44;
/** What a lumped plant can be wrong by at the last reading, and how that grows with each e-fold of pressure before it. */
const MODEL_SPREAD = 0.006;
const MODEL_SPREAD_GROWTH = 2;
/** The range of micron gauges ends here or higher. Common practice. */
const LOWEST_RANGE_END_PA = 1300;

export function traceOf({ readings, gauge }: PulldownRecord): PulldownTrace {
  const kept = withinRange(withoutStrays(readings, gauge.resolutionPa));
  const readingSpread = scatter(kept);
  const groups = grouped(kept);
  const timeS = Float64Array.from(groups, (group) => mean(group.map((reading) => reading.atS)));
  const logPa = Float64Array.from(groups, (group) =>
    mean(group.map((reading) => Math.log(Math.max(reading.pressureAbsPa, 0.3 * gauge.resolutionPa, 1e-3)))),
  );
  const spread = Float64Array.from(groups, (group, index) => {
    const rounding = (0.29 * gauge.resolutionPa) / Math.exp(logPa[index]!);
    const far = Math.abs(logPa[index]! - logPa[logPa.length - 1]!);
    return Math.hypot(
      MODEL_SPREAD * (1 + MODEL_SPREAD_GROWTH * far),
      Math.hypot(readingSpread, rounding) / Math.sqrt(group.length),
    );
  });
  const lastS = readings[readings.length - 1]!.atS;
  const everyS = (lastS - readings[0]!.atS) / Math.max(1, readings.length - 1);
  return { timeS, logPa, spread, readingSpread, lastS, everyS };
}

/** Without what lies beyond the gauge's range: it stands at one value until the pressure enters it. */
function withinRange(readings: readonly PulldownReading[]): readonly PulldownReading[] {
  const first = readings[0]!.pressureAbsPa;
  if (first < LOWEST_RANGE_END_PA) return readings;
  const entered = readings.findIndex(({ pressureAbsPa }) => pressureAbsPa < 0.999 * first);
  if (entered < 0) return readings.slice(-1);
  return entered > 1 ? readings.slice(entered) : readings;
}

/** A stray stands far off both what comes before and what comes after. */
export function withoutStrays(readings: readonly PulldownReading[], resolutionPa: number): readonly PulldownReading[] {
  if (readings.length < 4) return readings;
  return readings.filter((reading, index) => {
    const before = readings.slice(Math.max(0, index - 2), index).map((other) => other.pressureAbsPa);
    const after = readings.slice(index + 1, index + 3).map((other) => other.pressureAbsPa);
    const high = Math.max(
      before.length ? Math.min(...before) : Number.POSITIVE_INFINITY,
      Math.min(...after, Number.POSITIVE_INFINITY),
    );
    const low = Math.min(
      before.length ? Math.max(...before) : Number.POSITIVE_INFINITY,
      after.length ? Math.max(...after) : Number.POSITIVE_INFINITY,
    );
    const margin = 3 * resolutionPa;
    if (before.length === 0) return reading.pressureAbsPa > 0;
    if (after.length === 0)
      return reading.pressureAbsPa < 1.5 * low + margin && reading.pressureAbsPa > 0.3 * low - margin;
    return reading.pressureAbsPa < 1.6 * high + margin && reading.pressureAbsPa > 0.6 * low - margin;
  });
}

/** Groups of one reading or more, even in time and fine while the pressure still falls fast. */
function grouped(readings: readonly PulldownReading[]): PulldownReading[][] {
  const first = readings[0]!;
  const last = readings[readings.length - 1]!;
  const logFall = Math.log(Math.max(first.pressureAbsPa, 1) / Math.max(last.pressureAbsPa, 1));
  const stepLog = Math.max(Math.abs(logFall) / (MOST_POINTS * 0.6), 1e-3);
  const stepS = (last.atS - first.atS) / (MOST_POINTS * 0.4);
  const groups: PulldownReading[][] = [[first]];
  let start = first;
  for (const reading of readings.slice(1)) {
    const ratio = Math.log(Math.max(start.pressureAbsPa, 1) / Math.max(reading.pressureAbsPa, 1));
    const share = Math.max(0, ratio) / stepLog + (reading.atS - start.atS) / stepS;
    if (share >= 1 || groups.length === 1) {
      groups.push([reading]);
      start = reading;
    } else groups[groups.length - 1]!.push(reading);
  }
  return groups;
}

/** Scatter of single readings about the line through their neighbours, in logarithm, over the last third. */
function scatter(readings: readonly PulldownReading[]): number {
  const tail = readings.slice(-Math.max(12, Math.floor(readings.length / 3)));
  let sum = 0;
  let count = 0;
  for (let index = 1; index + 1 < tail.length; index++) {
    const [a, b, c] = [tail[index - 1]!, tail[index]!, tail[index + 1]!].map((reading) =>
      Math.log(Math.max(reading.pressureAbsPa, 0.1)),
    ) as [number, number, number];
    const bend = b - (a + c) / 2;
    sum += Math.min(bend * bend, 0.01) / 1.5;
    count++;
  }
  return count > 3 ? Math.sqrt(sum / count) : 0.01;
}

function mean(values: readonly number[]): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum / values.length;
}
