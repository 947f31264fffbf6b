import type { ReadingLog } from "./cells";
import type { FitPoint } from "./fit-points";
import type { HoldReasonCode } from "./judgement";
import type { HoldTerms } from "./record";
import { isStuck } from "./stuck-gauge";

/** What keeps a record from proving a circuit sound, whatever its readings say. */
export type RecordFault = Extract<
  HoldReasonCode,
  | "too-few-readings"
  | "hold-too-short"
  | "start-above-target"
  | "gauge-at-pump"
  | "gauge-stuck"
  | "not-isolated"
  | "pump-restarted"
  | "gap-in-record"
  | "last-readings-missing"
>;

/** Faults under which the gauge did not see the isolated circuit: no verdict on it, and no bound on its leak. */
export const blindFaults: ReadonlySet<RecordFault> = new Set<RecordFault>([
  "gauge-at-pump",
  "gauge-stuck",
  "not-isolated",
  "pump-restarted",
]);

const GAP_SHARE = 0.4;
const MISSING_END_SHARE = 0.05;
const SETTLED_S = 60;
const COARSE_SHARE = 0.5;
const FALL_SIGMAS = 5;
const SEEN_FALL_SHARE = 0.02;
const UNSEEN_FALL_SHARE = 0.045;
const LASTING_FALL_SHARE = 0.01;
/** A gauge's own wander over an hour, as a share of its reading. [own choice] */
const WANDER_PER_S = 0.015 / 3600;
/** A fall this large that is never made up, even if it has come to rest: a pump that holds the pressure down. */
const RESTING_FALL_SHARE = 0.035;
const LASTING_FALL_SIGMAS = 2;
const FALL_PER_K = 0.03;
const EARLY_FALL_SHARE = 0.2;

export function listFaults(log: ReadingLog, points: readonly FitPoint[], terms: HoldTerms): readonly RecordFault[] {
  const { criteria, gauge } = terms;
  const faults: RecordFault[] = [];
  if (gauge.location === "pump") faults.push("gauge-at-pump");
  if (log.believedCount < 3) return [...faults, "too-few-readings"];
  const last = log.believed[log.believed.length - 1]!;
  const lastS = last.atS - log.isolatedS;
  if (isStuck(log, points, lastS, terms, isTooCoarse(points, terms))) faults.push("gauge-stuck");
  const fall = listFall(points, gauge.resolutionPa);
  if (fall) faults.push(fall);
  if (startsAbove(points, terms)) faults.push("start-above-target");
  const { longestGap } = log;
  if (longestGap.toS - longestGap.fromS > GAP_SHARE * criteria.holdS) faults.push("gap-in-record");
  if (log.receivedS < criteria.holdS) faults.push("hold-too-short");
  else if (lastS < criteria.holdS * (1 - MISSING_END_SHARE)) faults.push("last-readings-missing");
  return faults;
}

/** Whether the gauge ends up moving in steps a leak at the limit would take over half the hold to climb. */
export function isTooCoarse(points: readonly FitPoint[], { criteria }: HoldTerms): boolean {
  return points[points.length - 1]!.stepPa > COARSE_SHARE * criteria.maxSteadyRisePaPerS * criteria.holdS;
}

function startsAbove(points: readonly FitPoint[], { criteria, gauge }: HoldTerms): boolean {
  const first = points[0]!;
  return first.pressurePa > criteria.targetPa + gauge.resolutionPa / 2 + 2 * first.sigmaPa;
}

/** A fall no cooling explains: something is pumping. A short dip may be a cloud; a fall that lasts to the end is not. */
function listFall(points: readonly FitPoint[], resolutionPa: number): RecordFault | null {
  const seen = points.some(({ warmingK }) => warmingK !== 0);
  const first = points[0]!;
  let peak = first;
  let risen = false;
  let fallen = 0;
  for (const point of points) {
    const dropPa = reducedPa(peak) - reducedPa(point);
    const noisePa = FALL_SIGMAS * Math.hypot(peak.sigmaPa, point.sigmaPa) + resolutionPa;
    if (dropPa < 0) {
      risen ||= reducedPa(point) - reducedPa(first) > noisePa;
      peak = point;
    }
    const share = point.atS < SETTLED_S ? EARLY_FALL_SHARE : seen ? SEEN_FALL_SHARE : UNSEEN_FALL_SHARE;
    const cooledK = Math.max(0, peak.warmingK - point.warmingK);
    const wander = WANDER_PER_S * (point.atS - peak.atS);
    const allowedPa = (share + wander + FALL_PER_K * cooledK) * reducedPa(peak) + noisePa;
    fallen = dropPa > allowedPa ? fallen + 1 : 0;
    if (fallen >= 2) return risen ? "pump-restarted" : "not-isolated"; // one low point alone may be a stray reading
  }
  return fallsToTheEnd(points, peak, resolutionPa) ? "not-isolated" : null;
}

/** Whether the last quarter of the record lies below what it reached before: still falling, or far below. */
function fallsToTheEnd(points: readonly FitPoint[], peak: FitPoint, resolutionPa: number): boolean {
  const last = points[points.length - 1]!;
  const quarter = points.filter(({ atS }) => atS > 0.75 * last.atS);
  const middle = points.filter(({ atS }) => atS > 0.4 * last.atS && atS <= 0.75 * last.atS);
  if (quarter.length < 3 || middle.length < 3 || peak.atS > 0.4 * last.atS) return false;
  const [endPa, middlePa] = [meanPa(quarter), meanPa(middle)];
  const cooledK = Math.max(0, peak.warmingK - last.warmingK);
  const share = LASTING_FALL_SHARE + WANDER_PER_S * last.atS + FALL_PER_K * cooledK;
  const noisePa = LASTING_FALL_SIGMAS * peak.sigmaPa + resolutionPa / 2;
  const fallenPa = reducedPa(peak) - endPa - noisePa;
  if (endPa < middlePa) return fallenPa > share * reducedPa(peak);
  return fallenPa > (RESTING_FALL_SHARE + FALL_PER_K * cooledK) * reducedPa(peak);
}

function meanPa(points: readonly FitPoint[]): number {
  return points.reduce((sum, point) => sum + reducedPa(point), 0) / points.length;
}

function reducedPa({ pressurePa, temperatureRatio }: FitPoint): number {
  return pressurePa / temperatureRatio;
}
