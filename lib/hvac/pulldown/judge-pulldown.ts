import { forecast, HORIZON_S, type Prospect } from "./forecast";
import { effectiveSpeedM3PerS, fadingInflow, waterInflow } from "./plant";
import { reason } from "./reasons";
import type { PulldownFinding, PulldownJudgement, PulldownReason, PulldownRecord } from "./record";
import { traceOf, withoutStrays } from "./trace";

/** Ends of the interval against what the drawn plants span: no drawn plant is quite the real one. Set by simulation. */
const WIDER = 1.7;
const LEAST_MARGIN = 0.03;
/** Chance of never that is said as never. */
const LIKELY = 0.65;
/** With fewer readings than this the plates of pump and hoses say more than the readings. */
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
  if (last !== undefined && last.pressureAbsPa <= record.targetAbsPa) {
    return answer(0, [0, 0], "reached", [reason("reached")], null);
  }
  if (last === undefined) return answer(null, null, "too-early", [reason("too-early")], null);
  const prospects = forecast(record, traceOf(record));
  const speeds = prospects.map(({ plant, now }) => Math.max(0, effectiveSpeedM3PerS(plant, now.pressurePa)));
  const speed = quantile(speeds.sort(ascending), 0.5);
  const etas = prospects.map(({ etaS }) => etaS ?? Number.POSITIVE_INFINITY).sort(ascending);
  const reaching = etas.filter(Number.isFinite);
  if (etas.length - reaching.length > LIKELY * etas.length) {
    const causes = rankedCauses(record, prospects);
    return answer(null, null, causes[0]!, [...causes.map(reason), ...hints(record, prospects)], speed);
  }
  const eta = quantile(reaching, 0.5);
  const low = Math.min(quantile(etas, 0.1), eta);
  const high = Math.max(quantile(etas, 0.9), eta);
  const interval = [
    eta * (low / eta) ** WIDER * Math.exp(-LEAST_MARGIN),
    Number.isFinite(high)
      ? Math.min(eta * (high / eta) ** WIDER * Math.exp(LEAST_MARGIN), Math.max(HORIZON_S, eta))
      : null,
  ] as const;
  const finding = readings.length < LEAST_READINGS ? "too-early" : "on-course";
  return answer(eta, interval, finding, [reason(finding), ...hints(record, prospects)], speed);
}

const ascending = (a: number, b: number) => a - b;

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
  for (const { plant, now, etaS } of prospects) {
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
    for (const cause of CAUSES) carried.set(cause, carried.get(cause)! + shares[cause] / total);
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
  return prospects.filter(holds).length / prospects.length;
}

/** `sorted` ascending. */
function quantile(sorted: readonly number[], share: number): number {
  return sorted[Math.round(share * (sorted.length - 1))]!;
}
