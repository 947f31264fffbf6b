import type { Cell, ReadingLog } from "./cells";
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
const STUCK_CHANCE = 2e-3;
/** A rise that stops dead: so many steps of the gauge are missing from it. */
const STOPPED_SHARE = 0.25;
const STOPPED_READINGS = 6;
const STOPPED_STEPS = 3;
/** Steps make a slope uncertain: this share of the allowed rise already counts as reaching it. */
const STOPPED_RATE_SHARE = 0.6;
const STRETCH_STEPS = 4;
const STRETCH_SIGMAS = 12;
const MOVING_SHARE = 0.8;
const SHORTEST_STRETCH = 0.15;
const SHORTER = 0.8;
/** So many readings that move show a live gauge. */
const LIVE_READINGS = 10;
const LIVE_S = 75;
const LIVE_STEPS = 2;
const LIVE_TURNS = 4;
const COARSE_SHARE = 0.5;
const SWEPT_STEPS = 3;
const LEAVES_PER_SWING = 4;
/** Restlessness learnt in steps finer than this many to one of now says nothing of now. */
const LEARNT_IN_STEPS = 8;
/** A gauge that stands for less of the hold than this hides nothing. */
const STUCK_SHARE = 0.15;
const STUCK_FROM_START_S = 120;
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

/** Whether the gauge ends up moving in steps a leak at the limit would take over half the hold to climb. */
export function isTooCoarse(points: readonly FitPoint[], { criteria }: HoldTerms): boolean {
  return points[points.length - 1]!.stepPa > COARSE_SHARE * criteria.maxSteadyRisePaPerS * criteria.holdS;
}

function startsAbove(points: readonly FitPoint[], { criteria, gauge }: HoldTerms): boolean {
  const first = points[0]!;
  return first.pressurePa > criteria.targetPa + gauge.resolutionPa / 2 + 2 * first.sigmaPa;
}

/**
 * The reading stands still: throughout, or although noise kept it restless before, or although it was rising before
 * too fast to come to rest so soon, or before it had shown that it moves. A dry circuit under a coarse or a quiet
 * gauge also comes to rest, but by and by; one value throughout cannot be told from a gauge that is stuck.
 */
function isStuck(log: ReadingLog, points: readonly FitPoint[], lastS: number, terms: HoldTerms): boolean {
  const { criteria } = terms;
  const { run, believedCount } = log;
  const heldS = lastS - run.fromS;
  const readingsBefore = believedCount - run.count;
  const { stepPa } = points[points.length - 1]!;
  if (run.count < STOPPED_READINGS) return false;
  if (readingsBefore === 0) return heldS > Math.min(STUCK_FROM_START_S, criteria.holdS / 3);
  if (isTooCoarse(points, terms)) return false;
  if (
    heldS > STUCK_SHARE * criteria.holdS &&
    run.count * Math.log1p(-restlessness(log, stepPa, terms.gauge.resolutionPa)) < Math.log(STUCK_CHANCE)
  )
    return true;
  if (heldS < STOPPED_SHARE * criteria.holdS) return false;
  if (!isSeenAlive(log, stepPa, readingsBefore, criteria.maxSteadyRisePaPerS)) return run.count > LIVE_READINGS;
  return stopsDead(points, run, heldS, criteria.maxSteadyRisePaPerS);
}

/** Whether the gauge moved before it came to rest: turned to and fro, or had time to show a leak at the limit. */
function isSeenAlive(log: ReadingLog, stepPa: number, readings: number, allowedPaPerS: number): boolean {
  if (readings < LIVE_READINGS || log.run.fromS < LIVE_S) return false;
  return allowedPaPerS * log.run.fromS > LIVE_STEPS * stepPa || sum(log.cells, "turns") >= LIVE_TURNS;
}

/**
 * The least chance that a live gauge moves from one reading to the next, from how it moved before it came to rest.
 *
 * Turning to and fro between two values shows little noise, if the pressure lies between them. Swept over several
 * steps, the share of readings that turn back is the scatter in steps over root pi / 2, and a reading at the middle
 * of its step leaves it with the normal chance of half a step. To swing by more takes scatter of half a step at least.
 */
function restlessness({ cells, run, restless, moveSteps }: ReadingLog, stepPa: number, resolutionPa: number): number {
  const swinging = moveSteps * resolutionPa * LEARNT_IN_STEPS > stepPa ? Math.min(0.5, LEAVES_PER_SWING * restless) : 0;
  const last = cells[cells.length - 1]!;
  const ended = cells.filter((cell) => cell.decade === last.decade && cell.sumS / cell.count < run.fromS);
  const swept = ended.findLastIndex(({ sumPa, count }) => Math.abs(run.valuePa - sumPa / count) > SWEPT_STEPS * stepPa);
  if (swept < 0) return swinging;
  const before = ended.slice(swept);
  const turning = sum(before, "turns") / (sum(before, "count") + LIVE_READINGS / 2);
  return Math.max(swinging, 0.5 * Math.exp(-((0.4 / Math.max(turning, 0.01)) ** 2)));
}

function sum(cells: readonly Cell[], key: "turns" | "count"): number {
  return cells.reduce((total, cell) => total + cell[key], 0);
}

/**
 * Whether the pressure rose at about the limit or faster and then stood, although it should have gone on by steps the
 * gauge would have shown: over equal stretches of time a fade rises by a constant ratio, a leak by the same again.
 */
function stopsDead(
  points: readonly FitPoint[],
  { fromS, valuePa }: ReadingLog["run"],
  heldS: number,
  allowedPaPerS: number,
): boolean {
  const { stepPa } = points[points.length - 1]!;
  const moving = points.findLast(({ atS }) => atS < MOVING_SHARE * fromS) ?? points[0]!;
  const shownPa = Math.max(STRETCH_STEPS * stepPa, STRETCH_SIGMAS * moving.sigmaPa);
  const pressureAt = (atS: number) => pressureBetween(points, atS);
  let stretchS = fromS;
  while (stretchS > SHORTEST_STRETCH * fromS && valuePa - pressureAt(fromS - SHORTER * stretchS) > shownPa)
    stretchS *= SHORTER;
  stretchS /= 2;
  const middlePa = pressureAt(fromS - stretchS);
  const risePa = valuePa - middlePa;
  const beforePa = middlePa - pressureAt(fromS - 2 * stretchS);
  if (risePa < STOPPED_RATE_SHARE * allowedPaPerS * stretchS || risePa < 1.5 * stepPa) return false;
  const ratio = risePa < beforePa ? risePa / beforePa : 1;
  const stretches = heldS / stretchS;
  return risePa * (ratio < 1 ? (ratio * (1 - ratio ** stretches)) / (1 - ratio) : stretches) > STOPPED_STEPS * stepPa;
}

function pressureBetween(points: readonly FitPoint[], atS: number): number {
  const next = points.findIndex((point) => point.atS > atS);
  if (next <= 0) return points[next < 0 ? points.length - 1 : 0]!.pressurePa;
  const [from, to] = [points[next - 1]!, points[next]!];
  return from.pressurePa + ((to.pressurePa - from.pressurePa) * (atS - from.atS)) / (to.atS - from.atS);
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
