import type { Estimate, Evidence } from "./evidence";
import type { BandPoint } from "./judgement";
import type { HoldTerms } from "./record";
import { pressureAt } from "./rise-fit";

const STEPS = 24;
const BEYOND = 1.25;

/** Where the pressure was and is heading, from isolation to a quarter past the end: the middle and the extremes the data allow. */
export function predictBand(
  { points, lastS, fromS, fits }: Evidence,
  leak: Estimate,
  level: Estimate,
  { criteria }: HoldTerms,
): readonly BandPoint[] {
  const best = fits[0]!;
  const last = points[points.length - 1]!;
  const extremes = [leak, level].flatMap((estimate) => [
    [estimate.fitOfLowest, estimate.lowest.solution] as const,
    [estimate.fitOfHighest, estimate.highest.solution] as const,
  ]);
  const untilS = BEYOND * Math.max(lastS, criteria.holdS);
  const band: BandPoint[] = [];
  for (let step = 0; step <= STEPS; step++) {
    const atS = untilS * (step / STEPS) ** 1.5;
    const near = atS >= lastS ? last : points.find((point) => point.atS >= atS)!;
    const moment = { ...near, atS: Math.max(0, atS - fromS) };
    const midPa = pressureAt(best, best.best, moment);
    let loPa = midPa - 2 * near.sigmaPa;
    let hiPa = midPa + 2 * near.sigmaPa;
    for (const [fit, solution] of extremes) {
      const pressurePa = pressureAt(fit, solution, moment);
      loPa = Math.min(loPa, pressurePa);
      hiPa = Math.max(hiPa, pressurePa);
    }
    band.push({ atS, loPa: Math.max(0, loPa), midPa: Math.max(0, midPa), hiPa });
  }
  return band;
}
