import { estimateLeak, type LeakEstimate } from "./estimate-leak";
import { findGasAdded, stepColumn } from "./gas-added";
import { reason } from "./reasons";
import type { PressureTestJudgement, PressureTestReason, PressureTestRecord } from "./record";

/**
 * A pass needs near certainty, because it lets the work go on; so does the accusation of a leak. The belief is wider than
 * it need be: of 984 simulated leaks above their limit the surest looked like a pass with a chance of more than 0.05.
 */
const PASS_CHANCE = 0.02;
const LEAK_CHANCE = 0.99;
const GAS_ADDED_LOG_ODDS = 5;
const GAIN_CHANCE = 0.998;
/** A gain this far below the limit could be weather; what matters is one that could hide a leak. */
const LEAST_GAIN = 0.2;
const LATE_LEAK_CHANCE = 0.995;
/** In air that stands still a cylinder left open cannot be told from a sound circuit, and the odds stay even. */
const KEPT_UP_LOG_ODDS = 1.2;
/** Stretches of the record as shares of it, and the odds that speak for a cylinder in them. */
const KEPT_UP_IN = [
  { from: 0.2, to: 1, logOdds: 1.4 },
  { from: 0.35, to: 1, logOdds: 1.4 },
  { from: 0.5, to: 1, logOdds: 1.5 },
  { from: 0.03, to: 0.7, logOdds: 1.3 },
  { from: 0.03, to: 0.5, logOdds: 1.3 },
  { from: 0.03, to: 0.35, logOdds: 1.3 },
] as const;

/**
 * Verdict on a standing nitrogen test, from the whole record.
 *
 * The gas follows the air with a lag and in part, and starts off it by what filling left; the leak is judged over every
 * such history the readings cannot tell apart. `tight` is never given before the criteria's time.
 */
export function judgePressureTest(record: PressureTestRecord): PressureTestJudgement {
  const tooHigh = record.readings.some((reading) => reading.gaugePa > record.maxTestGaugePa);
  const usable = record.readings.length >= 3 && spanS(record) > 0;
  if (!usable) {
    const why = tooHigh ? "above-limit" : "too-few-readings";
    const verdict = tooHigh ? "over-pressure" : "unproven";
    return { verdict, reasons: [reason(why)], leak: null, compensatedChangePa: null };
  }
  const sealed = estimateLeak(record);
  const topped = withGasAdded(record, sealed);
  const estimate = topped ?? sealed;
  const judged = tooHigh
    ? { verdict: "over-pressure" as const, reasons: [reason("above-limit")] }
    : verdictFor(record, estimate, topped !== null);
  return {
    ...judged,
    leak: {
      paPerS: estimate.paPerS,
      interval95PaPerS: estimate.interval95PaPerS,
      throughputPaM3PerS: estimate.paPerS * record.internalVolumeM3,
    },
    compensatedChangePa: compensatedChangePa(record, estimate),
  };
}

/** The estimate with nitrogen let in as one more cause, where the record speaks for that rather than for warming gas. */
function withGasAdded(record: PressureTestRecord, sealed: LeakEstimate): LeakEstimate | null {
  const { series, observations, paPerK } = sealed;
  const added = findGasAdded(series, observations.noisePa, paPerK);
  if (added === null) return null;
  const topped = estimateLeak(record, (cleaned) => stepColumn(cleaned, added));
  const likelySizePa = 0.05 * series.pressureAbsPa[0]!;
  const gained = topped.posterior.logEvidence - Math.log(likelySizePa) - sealed.posterior.logEvidence;
  return gained > GAS_ADDED_LOG_ODDS ? topped : null;
}

function verdictFor(
  record: PressureTestRecord,
  estimate: LeakEstimate,
  gasAdded: boolean,
): Pick<PressureTestJudgement, "verdict" | "reasons"> {
  const { criteria, readings } = record;
  const chanceOver = estimate.chanceAbove(criteria.maxLeakPaPerS);
  const reasons: PressureTestReason[] = [];
  if (estimate.chanceLosing(criteria.maxLeakPaPerS) > LEAK_CHANCE) {
    if (gasAdded) reasons.push(reason("gas-added"));
    return { verdict: "leaking", reasons: [reason("leak-above-limit"), ...reasons] };
  }
  if (readings[0]!.gaugePa < criteria.testGaugePa) reasons.push(reason("below-test-pressure"));
  if (gasAdded || estimate.chanceBelow(-LEAST_GAIN * criteria.maxLeakPaPerS) > GAIN_CHANCE)
    reasons.push(reason("gas-added"));
  if (estimate.logOddsKeptUp(criteria.maxLeakPaPerS) > KEPT_UP_LOG_ODDS) reasons.push(reason("pressure-ignores-air"));
  if (spanS(record) < criteria.holdS) reasons.push(reason("hold-too-short"));
  // Said this way round so that a chance that is no number at all can never pass.
  if (!(chanceOver <= PASS_CHANCE)) reasons.push(reason("leak-not-bounded"), ...whyNotBounded(record, estimate));
  if (reasons.length === 0 && losesLate(record)) reasons.push(reason("late-loss"));
  if (reasons.length === 0 && isKeptUpInPart(record)) reasons.push(reason("pressure-ignores-air"));
  return reasons.length > 0
    ? { verdict: "unproven", reasons }
    : { verdict: "tight", reasons: [reason("leak-within-limit")] };
}

/** What would make the same test conclusive. */
function whyNotBounded(record: PressureTestRecord, estimate: LeakEstimate): PressureTestReason[] {
  const allowedLossPa = record.criteria.maxLeakPaPerS * spanS(record);
  const why: PressureTestReason[] = [];
  if (estimate.observations.noisePa > 0.3 * allowedLossPa) why.push(reason("gauge-too-coarse"));
  const unsettledK = Math.exp(-spanS(record) / Math.max(estimate.posterior.best.lagS, 1));
  if (unsettledK > 0.05) why.push(reason("temperature-unsettled"));
  return why;
}

/** A joint may give way during the hold: the second half must not speak of a leak by itself. */
function losesLate(record: PressureTestRecord): boolean {
  const late = estimateFrom(record, 0.5);
  return late !== null && late.chanceAbove(record.criteria.maxLeakPaPerS) > LATE_LEAK_CHANCE;
}

/**
 * A cylinder left open shows while the gas stands at its regulator's pressure: not before it has come down to that, and
 * no longer once it has warmed above it.
 */
function isKeptUpInPart(record: PressureTestRecord): boolean {
  return KEPT_UP_IN.some(({ from, to, logOdds }) => {
    const part = estimateFrom(record, from, to);
    return part !== null && part.logOddsKeptUp(record.criteria.maxLeakPaPerS) > logOdds;
  });
}

function estimateFrom(record: PressureTestRecord, from: number, to = 1): LeakEstimate | null {
  const count = record.readings.length;
  const readings = record.readings.slice(Math.ceil(from * count), Math.ceil(to * count));
  return readings.length < 6 ? null : estimateLeak({ ...record, readings });
}

function spanS({ readings }: PressureTestRecord): number {
  return readings[readings.length - 1]!.atS - readings[0]!.atS;
}

/** Change from the first to the last reading that temperature does not explain; gas gained is positive. */
function compensatedChangePa(record: PressureTestRecord, { meanPaPerS }: LeakEstimate): number {
  return -meanPaPerS * spanS(record);
}
