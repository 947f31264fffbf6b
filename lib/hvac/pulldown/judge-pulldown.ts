import { forecast, HORIZON_S, type Prospect } from "./forecast";
import { effectiveSpeedM3PerS, fadingInflow, waterInflow } from "./plant";
import { reason } from "./reasons";
import type { PulldownFinding, PulldownJudgement, PulldownReason, PulldownRecord } from "./record";
import { traceOf, withoutStrays } from "./trace";

/** Ends of the interval against what the drawn plants span: no drawn plant is quite the real one. Set by simulation. */
const WIDER = 1.25;
const LEAST_MARGIN = 0.03;
/** Nothing can be said from fewer readings than this. */
const LEAST_READINGS = 4;

/**
 * When the gauge will read the target with the plant left as it is, and what holds it up if it will not.
 *
 * Every plant that could have made the readings is run on: pump and hoses anywhere below their plate, air leaking in,
 * water evaporating, gas leaving walls and oil, a pump that no longer pulls deep.
 */
export function judgePulldown(record: PulldownRecord): PulldownJudgement {
  const readings = withoutStrays(record.readings, record.gauge.resolutionPa);
  const last = readings[readings.length - 1];
  const first = readings[0];
  if (last !== undefined && last.pressureAbsPa <= record.targetAbsPa) {
    return answer(0, [0, 0], "reached", [reason("reached")], null);
  }
  if (first === undefined || last === undefined || readings.length < LEAST_READINGS || last.atS <= first.atS) {
    return answer(null, null, "too-early", [reason("too-early")], null);
  }
  const prospects = forecast(record, traceOf(record));
  const speed = weightedMedian(prospects, ({ plant, now }) => Math.max(0, effectiveSpeedM3PerS(plant, now.pressurePa)));
  const never = chance(prospects, ({ etaS }) => etaS === null);
  if (never > 0.5) {
    const causes = rankedCauses(record, prospects);
    return answer(null, null, causes[0]!, [...causes.map(reason), ...hints(record, prospects)], speed);
  }
  const eta = weightedMedian(prospects, ({ etaS }) => etaS ?? Number.POSITIVE_INFINITY);
  const low = weightedQuantile(prospects, ({ etaS }) => etaS ?? Number.POSITIVE_INFINITY, 0.1);
  const high = weightedQuantile(prospects, ({ etaS }) => etaS ?? Number.POSITIVE_INFINITY, 0.9);
  const widened = (end: number, margin: number) => eta * (end / eta) ** WIDER * Math.exp(margin);
  const interval = [
    widened(Math.min(low, eta), -LEAST_MARGIN),
    Number.isFinite(high) ? Math.min(widened(Math.max(high, eta), LEAST_MARGIN), HORIZON_S) : null,
  ] as const;
  return answer(eta, interval, "on-course", [reason("on-course"), ...hints(record, prospects)], speed);
}

function answer(
  etaToTargetS: number | null,
  interval80S: PulldownJudgement["interval80S"],
  finding: PulldownFinding,
  reasons: readonly PulldownReason[],
  effectiveSpeedM3PerS: number | null,
): PulldownJudgement {
  const effectiveLitresPerSecond = effectiveSpeedM3PerS === null ? null : effectiveSpeedM3PerS * 1000;
  return { etaToTargetS, interval80S, finding, reasons, effectiveSpeedM3PerS, effectiveLitresPerSecond };
}

const CAUSES = [
  "stalled-by-leak",
  "stalled-by-water",
  "stalled-by-pump",
  "stalled-by-restriction",
  "stalled-by-outgassing",
] as const;

/** Causes by how much of the stall they carry: each is taken away in thought, and what then still stands counts against it. */
function rankedCauses(record: PulldownRecord, prospects: readonly Prospect[]): (typeof CAUSES)[number][] {
  const carried = new Map(CAUSES.map((cause) => [cause, 0]));
  for (const { plant, now, weight, etaS } of prospects) {
    if (etaS !== null) continue;
    const pressure = Math.max(now.pressurePa, 1e-3);
    const speed = Math.max(effectiveSpeedM3PerS({ ...plant, pumpFloorPa: 0 }, pressure), 1e-12);
    const shares = {
      "stalled-by-leak": plant.leak / speed,
      "stalled-by-water": waterInflow(plant, now) / speed,
      "stalled-by-pump": plant.pumpFloorPa,
      "stalled-by-outgassing": fadingInflow(plant, now.atS) / speed,
      "stalled-by-restriction": speed < 0.12 * plant.speedM3PerS ? 0.5 * record.targetAbsPa : 0,
    };
    const total = Object.values(shares).reduce((sum, share) => sum + share, 0);
    for (const cause of CAUSES) carried.set(cause, carried.get(cause)! + (weight * shares[cause]) / total);
  }
  const all = [...carried.values()].reduce((sum, share) => sum + share, 0);
  const ranked = [...CAUSES].sort((a, b) => carried.get(b)! - carried.get(a)!);
  return ranked.filter((cause, index) => index === 0 || carried.get(cause)! > 0.3 * all);
}

/** What would help whatever the answer is. */
function hints(record: PulldownRecord, prospects: readonly Prospect[]): PulldownReason[] {
  const found: PulldownReason[] = [];
  if (record.gauge.location === "pump") found.push(reason("gauge-at-pump"));
  const throttled = chance(
    prospects,
    ({ plant, now }) => effectiveSpeedM3PerS(plant, now.pressurePa) < 0.4 * plant.speedM3PerS,
  );
  if (throttled > 0.7) found.push(reason("restricted"));
  const slow = chance(prospects, ({ plant }) => plant.speedM3PerS < 0.45 * record.pump.speedM3PerS);
  if (slow > 0.8) found.push(reason("slow-pump"));
  const wet = chance(
    prospects,
    ({ plant, now }) => waterInflow(plant, now) > plant.leak + fadingInflow(plant, now.atS),
  );
  if (wet > 0.7) found.push(reason("water-present"));
  return found;
}

function chance(prospects: readonly Prospect[], holds: (prospect: Prospect) => boolean): number {
  let yes = 0;
  let total = 0;
  for (const prospect of prospects) {
    total += prospect.weight;
    if (holds(prospect)) yes += prospect.weight;
  }
  return yes / total;
}

function weightedMedian(prospects: readonly Prospect[], value: (prospect: Prospect) => number): number {
  return weightedQuantile(prospects, value, 0.5);
}

function weightedQuantile(
  prospects: readonly Prospect[],
  value: (prospect: Prospect) => number,
  share: number,
): number {
  const sorted = prospects.map((prospect) => ({ at: value(prospect), weight: prospect.weight }));
  sorted.sort((a, b) => a.at - b.at);
  const total = sorted.reduce((sum, { weight }) => sum + weight, 0);
  let passed = 0;
  for (const { at, weight } of sorted) {
    passed += weight;
    if (passed >= share * total) return at;
  }
  return sorted[sorted.length - 1]!.at;
}
