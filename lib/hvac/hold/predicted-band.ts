import type { Estimate, Evidence } from "./evidence";
import type { BandPoint } from "./judgement";
import type { HoldTerms } from "./record";
import { curveOf } from "./rise-fit";

const STEPS = 24;
const BEYOND = 1.25;

/** Where the pressure was and is heading, from isolation to a quarter past the end: the middle and the extremes the data allow. */
export function predictBand(
  { points, lastS, fromS, fits }: Evidence,
  leak: Estimate,
  level: Estimate,
  { criteria }: HoldTerms,
): readonly BandPoint[] {
  const middle = curveOf(fits[0]!, fits[0]!.best);
  const last = points[points.length - 1]!;
  const extremes = [leak, level].flatMap((estimate) => [
    curveOf(estimate.fitOfLowest, estimate.lowest.solution),
    curveOf(estimate.fitOfHighest, estimate.highest.solution),
  ]);
  const untilS = BEYOND * Math.max(lastS, criteria.holdS);
  const band: BandPoint[] = [];
  for (let step = 0; step <= STEPS; step++) {
    const atS = untilS * (step / STEPS) ** 1.5;
    const near = atS >= lastS ? last : points.find((point) => point.atS >= atS)!;
    const moment = { ...near, atS: Math.max(0, atS - fromS) };
    const midPa = middle(moment);
    let loPa = midPa - 2 * near.sigmaPa;
    let hiPa = midPa + 2 * near.sigmaPa;
    for (const extreme of extremes) {
      const pressurePa = extreme(moment);
      loPa = Math.min(loPa, pressurePa);
      hiPa = Math.max(hiPa, pressurePa);
    }
    band.push({ atS, loPa: Math.max(0, loPa), midPa: Math.max(0, midPa), hiPa });
  }
  return band;
}
