/** Samples in time order: seconds and absolute pascals, same length. Typed arrays for long records, plain ones for short. */
export type VacuumTrace = { atS: ArrayLike<number>; pressureAbsPa: ArrayLike<number> };

export type VacuumPoint = { atS: number; pressureAbsPa: number };

/** Half-open range of sample indices that may be joined by a line. */
export type Stretch = { from: number; to: number };

export const emptyTrace: VacuumTrace = { atS: [], pressureAbsPa: [] };

/** Turns a list of points into the two columns the picture reads. */
export function traceOf(points: readonly VacuumPoint[]): VacuumTrace {
  return { atS: points.map((point) => point.atS), pressureAbsPa: points.map((point) => point.pressureAbsPa) };
}

/** Can the sample stand on a logarithmic axis? A dropped radio packet often reads 0, and cannot. */
export function isDrawable(trace: VacuumTrace, index: number): boolean {
  const pressureAbsPa = trace.pressureAbsPa[index] ?? Number.NaN;
  return pressureAbsPa > 0 && Number.isFinite(pressureAbsPa) && Number.isFinite(trace.atS[index] ?? Number.NaN);
}

/**
 * The stretches of a record between its gaps. A gap is a wait longer than `gapAfterS`, a step back in time, or
 * samples that cannot be drawn: what was not measured is not joined.
 */
export function listStretches(trace: VacuumTrace, gapAfterS: number): Stretch[] {
  const stretches: Stretch[] = [];
  let from = -1;
  for (let index = 0; index < trace.atS.length; index += 1) {
    if (!isDrawable(trace, index)) {
      if (from >= 0) stretches.push({ from, to: index });
      from = -1;
      continue;
    }
    if (from < 0) {
      from = index;
      continue;
    }
    const waitS = (trace.atS[index] as number) - (trace.atS[index - 1] as number);
    if (waitS > gapAfterS || waitS < 0) {
      stretches.push({ from, to: index });
      from = index;
    }
  }
  if (from >= 0) stretches.push({ from, to: trace.atS.length });
  return stretches;
}

const SAMPLED_WAITS = 401;

/** Five times the usual wait between samples, at least 15 s: a longer silence is a gap. */
export function usualGapS(trace: VacuumTrace): number {
  const waits = trace.atS.length - 1;
  if (waits < 1) return 15;
  const step = Math.max(1, Math.floor(waits / SAMPLED_WAITS));
  const sampled: number[] = [];
  for (let index = step; index <= waits; index += step) {
    sampled.push((trace.atS[index] as number) - (trace.atS[index - 1] as number));
  }
  sampled.sort((one, other) => one - other);
  return Math.max(15, 5 * (sampled[Math.floor(sampled.length / 2)] ?? 3));
}

export type TraceExtent = { first: number; last: number; lowest: number; highest: number };

/** Indices of the first, last, lowest and highest drawable samples (of the time `within`), and how many are undrawable. */
export function measureTrace(
  trace: VacuumTrace,
  within: { fromS: number; toS: number } = { fromS: -Infinity, toS: Infinity },
): { extent: TraceExtent | undefined; undrawable: number } {
  let extent: TraceExtent | undefined;
  let undrawable = 0;
  for (let index = 0; index < trace.atS.length; index += 1) {
    if (!isDrawable(trace, index)) {
      undrawable += 1;
      continue;
    }
    const at = trace.atS[index] as number;
    if (at < within.fromS || at > within.toS) continue;
    if (!extent) {
      extent = { first: index, last: index, lowest: index, highest: index };
      continue;
    }
    const pressure = trace.pressureAbsPa[index] as number;
    extent.last = index;
    if (pressure < (trace.pressureAbsPa[extent.lowest] as number)) extent.lowest = index;
    if (pressure > (trace.pressureAbsPa[extent.highest] as number)) extent.highest = index;
  }
  return { extent, undrawable };
}
