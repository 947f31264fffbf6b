import { forecast, HORIZON_S, type Prospect } from "./forecast";
import { effectiveSpeedM3PerS, fadingInflow, plateConductance, waterInflow } from "./plant";
import { reason } from "./reasons";
import type { PulldownFinding, PulldownJudgement, PulldownReason, PulldownRecord } from "./record";
import { rigSavings } from "./rig-savings";
import { type PulldownTrace, traceOf, withoutStrays } from "./trace";

/** Ends of the interval against what the drawn plants span: no drawn plant is quite the real one. Set by simulation. */
const WIDER = 1.7;
const LEAST_MARGIN = 0.03;
/** Chance of never that is said as never. */
const LIKELY = 0.5;
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
  const trace = traceOf(record);
  const prospects = forecast(record, trace);
  const speeds = prospects.map(({ plant, now }) => Math.max(0, effectiveSpeedM3PerS(plant, now.pressurePa)));
  const speed = quantile(speeds.sort(ascending), 0.5);
  const etas = prospects.map(({ etaS }) => etaS ?? Number.POSITIVE_INFINITY).sort(ascending);
  const reaching = etas.filter(Number.isFinite);
  if (etas.length - reaching.length > LIKELY * etas.length) {
    const causes = rankedCauses(record, prospects);
    const why = [...stallReasons(record, causes), ...hints(record, trace, prospects, null)];
    return answer(null, null, causes[0]!, why, speed);
  }
  const eta = quantile(reaching, 0.5);
  const low = Math.min(quantile(etas, 0.1), eta);
  const high = Math.max(quantile(etas, 0.9), eta);
  const widened = (end: number) => (eta > 0 ? eta * (end / eta) ** WIDER : end);
  const interval = [
    widened(low) * Math.exp(-LEAST_MARGIN),
    Number.isFinite(high) ? Math.min(widened(high) * Math.exp(LEAST_MARGIN), Math.max(HORIZON_S, eta)) : null,
  ] as const;
  const finding = readings.length < LEAST_READINGS ? "too-early" : "on-course";
  return answer(eta, interval, finding, [reason(finding), ...hints(record, trace, prospects, eta)], speed);
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
type Cause = (typeof CAUSES)[number];

/** Share of the plate's conductance below which the way is narrower than hoses and cores explain. */
const NARROW_SHARE = { coresOut: 0.2, coresIn: 0.1 };

/** Causes by how much of the pressure that stays each carries; one alone, or with those that carry nearly as much. */
function rankedCauses(record: PulldownRecord, prospects: readonly Prospect[]): Cause[] {
  const narrowShare = record.valveCoresRemoved ? NARROW_SHARE.coresOut : NARROW_SHARE.coresIn;
  const leastViscous = narrowShare * plateConductance(record.hoses).viscous;
  const carried = CAUSES.map(() => 0);
  for (const { plant, now, etaS } of prospects) {
    if (etaS !== null) continue;
    const speed = Math.max(effectiveSpeedM3PerS({ ...plant, pumpFloorPa: 0 }, now.pressurePa), 1e-12);
    const fading = fadingInflow(plant, now.atS);
    const water = waterInflow(plant, now);
    const load = plant.leak + fading + water;
    const standsAt = plant.pumpFloorPa + load / speed;
    const wideStandsAt = plant.pumpFloorPa + load / plant.speedM3PerS;
    // A wide way would have brought it there, and this one is narrower than its plate, or holds up even the little that comes in.
    const narrow =
      wideStandsAt < record.targetAbsPa && (plant.viscous < leastViscous || standsAt < 0.7 * record.targetAbsPa);
    const shares = narrow ? [0, 0, 0, 1, 0] : [plant.leak / speed, water / speed, plant.pumpFloorPa, 0, fading / speed];
    const total = shares.reduce((sum, share) => sum + share, 0);
    for (const index of shares.keys()) carried[index]! += shares[index]! / total;
  }
  const most = Math.max(...carried);
  return [0, 1, 2, 3, 4]
    .filter((index) => carried[index]! > 0.4 * most)
    .sort((a, b) => carried[b]! - carried[a]!)
    .map((index) => CAUSES[index]!);
}

/** A steady inflow and a pump that stops pulling leave the same curve; above this no oil is so tired. Common practice. */
const HIGHEST_PUMP_FLOOR_PA = 700;

function stallReasons(record: PulldownRecord, causes: readonly Cause[]): PulldownReason[] {
  const lastPa = record.readings[record.readings.length - 1]!.pressureAbsPa;
  const either = /leak|pump/.test(causes[0]!) && lastPa < HIGHEST_PUMP_FLOOR_PA;
  const named = either ? [...new Set<Cause>([...causes, "stalled-by-leak", "stalled-by-pump"])] : causes;
  return [...named.map(reason), ...(either ? [reason("leak-or-pump")] : [])];
}

/** What would help whatever the answer is. */
function hints(
  record: PulldownRecord,
  trace: PulldownTrace,
  prospects: readonly Prospect[],
  etaNowS: number | null,
): PulldownReason[] {
  const found: PulldownReason[] = [];
  if (record.gauge.location === "pump") found.push(reason("gauge-at-pump"));
  const throttled = chance(
    prospects,
    ({ plant, now }) => effectiveSpeedM3PerS(plant, now.pressurePa) < 0.4 * plant.speedM3PerS,
  );
  if (throttled > 0.7) found.push(reason("restricted"), ...rigSavings(record, trace, prospects, etaNowS));
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
