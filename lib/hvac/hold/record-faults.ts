import type { ReadingLog } from "./cells";
import type { FitPoint } from "./fit-points";
import type { HoldReasonCode } from "./judgement";
import type { HoldTerms } from "./record";

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
const STUCK_CHANCE = 1e-5;
const STUCK_READINGS = 20;
const FINE_FRACTION = 0.01;
const STUCK_SHARE_FINE = 0.45;
const STUCK_SHARE_COARSE = 0.65;
/** A rise that stops dead, within a sixth of the time it then stands. */
const STOPPED_SHARE = 0.25;
const STOPPED_READINGS = 6;
const STOPPED_LOOK_BACK = 1 / 6;
const STOPPED_STEPS = 3;
const STOPPED_RISE_SHARE = 0.01;
const STUCK_AT_LEAST_S = 20;
const STUCK_FROM_START_S = 120;
const FALL_SIGMAS = 5;
const FALL_SHARE = 0.012;
const UNSEEN_FALL_SHARE = 0.03;
const FALL_PER_K = 0.05;
const EARLY_FALL_SHARE = 0.2;

export function listFaults(log: ReadingLog, points: readonly FitPoint[], terms: HoldTerms): readonly RecordFault[] {
  const { criteria, gauge } = terms;
  const faults: RecordFault[] = [];
  if (gauge.location === "pump") faults.push("gauge-at-pump");
  if (log.believedCount < 3) return [...faults, "too-few-readings"];
  const last = log.believed[log.believed.length - 1]!;
  const lastS = last.atS - log.isolatedS;
  if (isStuck(log, points, lastS, terms)) faults.push("gauge-stuck");
  const fall = listFall(points, gauge.resolutionPa);
  if (fall) faults.push(fall);
  if (startsAbove(points, terms)) faults.push("start-above-target");
  const { longestGap } = log;
  if (longestGap.toS - longestGap.fromS > GAP_SHARE * criteria.holdS) faults.push("gap-in-record");
  if (log.receivedS < criteria.holdS) faults.push("hold-too-short");
  else if (lastS < criteria.holdS * (1 - MISSING_END_SHARE)) faults.push("last-readings-missing");
  return faults;
}

function startsAbove(points: readonly FitPoint[], { criteria, gauge }: HoldTerms): boolean {
  const first = points[0]!;
  return first.pressurePa > criteria.targetPa + gauge.resolutionPa / 2 + 2 * first.sigmaPa;
}

/**
 * The reading stands still: although noise kept it restless before, or although it was rising just before, or for
 * longer than a live gauge ever does, or from the start.
 */
function isStuck(log: ReadingLog, points: readonly FitPoint[], lastS: number, { criteria, gauge }: HoldTerms): boolean {
  const { run, believedCount, restless } = log;
  const heldS = lastS - run.fromS;
  if (run.count < 4) return false;
  if (run.count === believedCount) return heldS > Math.min(STUCK_FROM_START_S, criteria.holdS / 3);
  const share = heldS / criteria.holdS;
  const fine = gauge.resolutionPa < FINE_FRACTION * run.valuePa;
  if (run.count >= STUCK_READINGS && share > (fine ? STUCK_SHARE_FINE : STUCK_SHARE_COARSE)) return true;
  if (share > STOPPED_SHARE && run.count >= STOPPED_READINGS) {
    const shortlyS = run.fromS - heldS * STOPPED_LOOK_BACK;
    const shortly = points.findLast(({ atS }) => atS <= shortlyS);
    const risePa = shortly ? run.valuePa - shortly.pressurePa : 0;
    if (risePa > STOPPED_STEPS * gauge.resolutionPa && risePa > STOPPED_RISE_SHARE * run.valuePa) return true;
  }
  return heldS > STUCK_AT_LEAST_S && run.count * Math.log1p(-restless) < Math.log(STUCK_CHANCE);
}

/** A fall no cooling explains: something is pumping. */
function listFall(points: readonly FitPoint[], resolutionPa: number): RecordFault | null {
  const seen = points.some(({ warmingK }) => warmingK !== 0);
  let peak = points[0]!;
  let risen = false;
  let fallen = false; // one low point alone may be a stray reading
  for (const point of points) {
    const dropPa = reducedPa(peak) - reducedPa(point);
    const early = point.atS < SETTLED_S || peak.atS < SETTLED_S / 3;
    const cooledK = Math.max(0, peak.warmingK - point.warmingK);
    const share = Math.max(early ? 0.06 : FALL_SHARE, seen ? FALL_PER_K * cooledK : UNSEEN_FALL_SHARE);
    const noisePa = FALL_SIGMAS * Math.hypot(peak.sigmaPa, point.sigmaPa) + 2 * resolutionPa;
    const threshold = point.atS < SETTLED_S ? EARLY_FALL_SHARE * reducedPa(peak) : share * reducedPa(peak);
    if (dropPa > threshold + noisePa) {
      if (fallen) return risen ? "pump-restarted" : "not-isolated";
      fallen = true;
    } else fallen = false;
    if (dropPa < 0) {
      risen ||= reducedPa(point) - reducedPa(points[0]!) > noisePa;
      peak = point;
    }
  }
  return null;
}

function reducedPa({ pressurePa, temperatureRatio }: FitPoint): number {
  return pressurePa / temperatureRatio;
}
