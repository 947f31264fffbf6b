import type { HoldReading } from "./record";

/** How many neighbours on each side a reading is held against. */
export const NEIGHBOURS = 5;

/** Closer than this to the reading before, no median is needed. */
const NEAR_FRACTION = 0.03;
const CHANGE_FRACTION = 0.06;
const SPREADS = 8;
const STEPS = 4;
/** A single jump by this factor at the end of a record waits for the next reading before it is believed. */
const BURST_S = 30;
const UNCONFIRMED_FACTOR = 3;
const SLIPPED_DIGIT = 8;

/**
 * Whether a reading is nonsense on the radio's way (0, full scale, a slipped digit) and not the circuit.
 *
 * A stray reading stands alone: what came before and what comes after agree with each other and not with it.
 * A step that stays is the circuit's own. Zero is never a pressure.
 * @param believed oldest first; `following` as received; both at most `NEIGHBOURS` long
 */
export function isStray(
  believed: readonly HoldReading[],
  reading: HoldReading,
  following: readonly HoldReading[],
  resolutionPa: number,
): boolean {
  const valuePa = reading.pressureAbsPa;
  if (!(valuePa > 0)) return true;
  const last = believed[believed.length - 1]?.pressureAbsPa;
  if (last !== undefined && Math.abs(valuePa - last) <= Math.max(NEAR_FRACTION * last, STEPS * resolutionPa))
    return false;
  const before = believed.map(({ pressureAbsPa }) => pressureAbsPa);
  const next = following.map(({ pressureAbsPa }) => pressureAbsPa).filter((pressurePa) => pressurePa > 0);
  if (before.length === 0) return next.length >= 2 && isStrayFirst(reading, following, next, resolutionPa);
  if (leapsFrom(before, valuePa)) return !stays(reading, following);
  if (next.length < 2) return false;
  const middleBefore = median(before);
  const middleAfter = median(next);
  const allowancePa = Math.max(
    CHANGE_FRACTION * Math.max(middleBefore, Math.min(middleAfter, 3 * middleBefore)),
    SPREADS * Math.max(spread(before, middleBefore), spread(next, middleAfter)),
    STEPS * resolutionPa,
  );
  const lowest = Math.min(middleBefore, middleAfter) - allowancePa;
  const highest = Math.max(middleBefore, middleAfter) + allowancePa;
  return valuePa < lowest || valuePa > highest;
}

/** Whether enough has followed at about the same pressure to tell a step from a burst of nonsense. */
function stays({ atS, pressureAbsPa }: HoldReading, following: readonly HoldReading[]): boolean {
  const last = following[following.length - 1];
  if (following.length < 2 || !last) return false;
  const alike = following.filter((next) => {
    const ratio = next.pressureAbsPa / pressureAbsPa;
    return ratio < UNCONFIRMED_FACTOR && ratio > 1 / UNCONFIRMED_FACTOR;
  }).length;
  if (following.length >= NEIGHBOURS) return alike >= NEIGHBOURS - 1;
  return last.atS - atS >= BURST_S && alike === following.length;
}

/** Too high by a factor; or too low by one, unless so long went by to the next that the pressure may have risen so far. */
function isStrayFirst(
  first: HoldReading,
  following: readonly HoldReading[],
  next: readonly number[],
  resolutionPa: number,
) {
  const risenS = following[0]!.atS - first.atS;
  const low = first.pressureAbsPa < next[0]!;
  return standsApart(
    first.pressureAbsPa,
    next,
    resolutionPa,
    low && risenS > BURST_S / 2 ? SLIPPED_DIGIT : UNCONFIRMED_FACTOR,
  );
}

function standsApart(valuePa: number, others: readonly number[], resolutionPa: number, factor: number): boolean {
  const middle = median(others);
  const settled = spread(others, middle) <= Math.max(0.1 * middle, STEPS * resolutionPa);
  return settled && (valuePa > factor * middle || valuePa < middle / factor);
}

function leapsFrom(before: readonly number[], valuePa: number): boolean {
  const last = before[before.length - 1] as number;
  const beforeLast = before[before.length - 2] ?? last;
  const expected = Math.max(last, 2 * last - beforeLast);
  return valuePa > UNCONFIRMED_FACTOR * expected || valuePa < last / UNCONFIRMED_FACTOR;
}

/** Median distance from the middle: half the neighbours may be stray themselves. */
function spread(values: readonly number[], middle: number): number {
  return median(values.map((value) => Math.abs(value - middle)));
}

function median(values: readonly number[]): number {
  const sorted = Float64Array.from(values).sort();
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1
    ? (sorted[half] as number)
    : ((sorted[half - 1] as number) + (sorted[half] as number)) / 2;
}
