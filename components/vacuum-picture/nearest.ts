import { isDrawable, type VacuumTrace } from "./trace";

/** Index of the drawable sample nearest in time, by bisection; undefined when there is none. */
export function nearestSample(trace: VacuumTrace, atS: number): number | undefined {
  let low = 0;
  let high = trace.atS.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((trace.atS[middle] as number) < atS) low = middle + 1;
    else high = middle;
  }
  let before = low - 1;
  let after = low;
  while (before >= 0 && !isDrawable(trace, before)) before -= 1;
  while (after < trace.atS.length && !isDrawable(trace, after)) after += 1;
  if (before < 0) return after < trace.atS.length ? after : undefined;
  if (after >= trace.atS.length) return before;
  return atS - (trace.atS[before] as number) <= (trace.atS[after] as number) - atS ? before : after;
}
