import { STANDARD_ATMOSPHERE_PA } from "../units";
import { saturationPressurePa } from "../water";
import { closeLog, emptyLog, type ReadingLog, receive } from "./cells";
import {
  type Estimate,
  type Evidence,
  estimateLeak,
  estimateLevel,
  evidenceAgainst,
  highestLeak,
  highestLevel,
  weighRecord,
} from "./evidence";
import type { HoldJudgement, HoldReasonCode, HoldVerdict } from "./judgement";
import { nextAction, type ReasonFacts, reasonText } from "./plain-words";
import { predictBand } from "./predicted-band";
import type { HoldReading, HoldRecord, HoldTerms } from "./record";
import { blindFaults, isTooCoarse, listFaults, type RecordFault } from "./record-faults";
import { leakOf } from "./rise-fit";

/** Stored beside every verdict; changes whenever the same record could be judged differently. */
export const HOLD_RULES_VERSION = "hold-3";

/** A hold that is running: readings go in one by one, and it can be judged at any moment. */
export interface RunningHold {
  /** Takes the next reading; its time is not before the one before it. */
  add(reading: HoldReading): void;
  judge(): HoldJudgement;
}

/** Chi-squared with one degree of freedom: 95 % two-sided, then what a pass and an accusation are held to. */
const INTERVAL_95 = 3.841;
const PASS_ALLOWANCE = 7;
const LEVEL_ALLOWANCE = 6;
const ACCUSE_AT_END = 10;
const ACCUSE_EARLY = 16;
const CAUSE_NEEDED = 4.5;
/** A leak the best fit puts this many times above the limit takes less to be named beside water. */
const PLAIN_LEAK = 2.5;
const CAUSE_NEEDED_PLAIN = 2;
const EARLY_RISE_SHARE = 0.3;
const STRAIGHT_SHARE = 0.6;
const DISTURBED_WIDENING = 3;
const ABOVE_SIGMAS = 4;
const CAUSE_AHEAD = 2;
const EARLIEST_ACCUSATION_S = 30;
const FEWEST_POINTS = 4;
/** A gauge's gain also wanders during the hold: by so much its stated accuracy is widened. [own choice] */
const WANDERING_ACCURACY = 1.25;
/** Detected 95 times in 100 at 95 % confidence, over the interval's own half width: (1.645 + 1.96) / 1.96. */
const SHOWN_OVER_HALF_WIDTH = 1.84;

/** A hold at the moment of isolation, before its first reading. */
export function startHold(terms: HoldTerms): RunningHold {
  const log = emptyLog();
  return {
    add: (reading) => receive(log, reading, terms.gauge.resolutionPa),
    judge: () => judgeLog(closeLog(log, terms.gauge.resolutionPa), terms),
  };
}

/** Whether the isolated circuit is proven dry and tight; any record of rising times gets an answer. */
export function judgeHold(record: HoldRecord): HoldJudgement {
  const hold = startHold(record);
  for (const reading of record.readings) hold.add(reading);
  return hold.judge();
}

function judgeLog(log: ReadingLog, terms: HoldTerms): HoldJudgement {
  if (log.believedCount < 3) return tooFew(log, terms);
  const evidence = weighRecord(log, terms);
  const faults = listFaults(log, evidence.points, terms);
  const leak = estimateLeak(evidence, INTERVAL_95);
  const level = estimateLevel(evidence, INTERVAL_95);
  const { verdict, codes } = decide(log, terms, evidence, faults, level);
  const blind = faults.some((fault) => blindFaults.has(fault));
  const leakPaPerS = leakInterval(leak, terms, blind, evidence.lastS);
  const facts: ReasonFacts = {
    terms,
    lastS: evidence.lastS,
    lastPa: evidence.points[evidence.points.length - 1]!.pressurePa,
    leakPaPerS,
    levelPa: [level.lowest.value, level.value, level.highest.value],
    ignored: log.ignored,
  };
  return {
    rulesVersion: HOLD_RULES_VERSION,
    verdict,
    reasons: codes.map((code) => ({ code, text: reasonText(code, facts) })),
    leak: {
      ratePaPerS: leak.value,
      interval95PaPerS: leakPaPerS,
      throughputPaM3PerS: leak.value * terms.internalVolumeM3,
    },
    settlesAt: { estimatePa: level.value, interval95Pa: [Math.max(0, level.lowest.value), level.highest.value] },
    smallestLeakShownPaPerS: blind ? null : SHOWN_OVER_HALF_WIDTH * (leakPaPerS[1] - leak.value),
    band: predictBand(evidence, leak, level, terms),
    nextAction: nextAction(verdict, codes, facts),
  };
}

interface Decision {
  readonly verdict: HoldVerdict;
  readonly codes: readonly HoldReasonCode[];
}

function decide(
  log: ReadingLog,
  terms: HoldTerms,
  evidence: Evidence,
  faults: readonly RecordFault[],
  level: Estimate,
): Decision {
  const aside: HoldReasonCode[] = log.ignored > 0 ? ["readings-ignored"] : [];
  if (!faults.some((fault) => blindFaults.has(fault))) {
    const accusation = accuse(terms, evidence, level, log.receivedS >= terms.criteria.holdS);
    if (accusation) return { ...accusation, codes: [...accusation.codes, ...aside] };
  }
  const doubts = [...faults, ...listDoubts(terms, evidence, level)];
  if (doubts.length > 0) return { verdict: "unproven", codes: [...doubts, ...aside] };
  return { verdict: "dry-and-tight", codes: ["rise-fades", "level-holds", ...aside, "valve-can-hide-leak"] };
}

/**
 * A failing verdict, once no sound circuit explains the readings: not with a leak the criteria allow and a level
 * under their limit, even if the gauge reads as much too high as its accuracy lets it.
 *
 * While the hold runs the same question is asked at each reading, so it takes more to say yes.
 */
function accuse(terms: HoldTerms, evidence: Evidence, level: Estimate, over: boolean): Decision | null {
  const { points, lastS } = evidence;
  if (lastS < EARLIEST_ACCUSATION_S || points.length < FEWEST_POINTS) return null;
  const gain = 1 + terms.gauge.accuracyFraction;
  const leakAtMostPaPerS = terms.criteria.maxSteadyRisePaPerS * gain;
  const levelAtMostPa = terms.criteria.maxFinalPa * gain;
  const last = points[points.length - 1]!;
  const endsAbove = over && last.pressurePa - ABOVE_SIGMAS * last.sigmaPa > levelAtMostPa;
  const againstSound = evidenceAgainst(evidence, { leakAtMostPaPerS, levelAtMostPa });
  if (!endsAbove && againstSound < (over ? ACCUSE_AT_END : ACCUSE_EARLY)) return null;
  const forLeak = evidenceAgainst(evidence, { leakAtMostPaPerS });
  const forWater = evidenceAgainst(evidence, { levelAtMostPa });
  const late = evidence.fits[0]!.model.leakFromS > 0;
  const leakCodes: HoldReasonCode[] = late ? ["steady-rise-above-limit", "late-leak"] : ["steady-rise-above-limit"];
  const waterCodes: HoldReasonCode[] = nearWaterLine(terms, level)
    ? ["level-above-limit", "near-water-line"]
    : ["level-above-limit"];
  const best = evidence.fits[0]!;
  const leakNeeded = leakOf(best, best.best) > PLAIN_LEAK * leakAtMostPaPerS ? CAUSE_NEEDED_PLAIN : CAUSE_NEEDED;
  // judged from its last part, a level holds what an earlier leak brought in: it says nothing of water beside a leak
  if (evidence.fromS > 0 && forLeak > CAUSE_NEEDED) return { verdict: "leaking", codes: leakCodes };
  if (forLeak > leakNeeded && forWater > CAUSE_NEEDED)
    return { verdict: "wet-and-leaking", codes: [...leakCodes, ...waterCodes] };
  if (!over && !isNamedEarly(terms, evidence, forLeak - forWater)) return null;
  return forLeak >= forWater ? { verdict: "leaking", codes: leakCodes } : { verdict: "wet", codes: waterCodes };
}

/**
 * Whether a rise that fails for certain can already be given a name: the data prefer one cause, or the rise is as
 * straight as a leak's and has gone on long enough that a drop of water drying out is no longer to be expected.
 */
function isNamedEarly(terms: HoldTerms, { points, fits, lastS, fromS }: Evidence, leakAhead: number): boolean {
  const [first, last] = [points[0]!, points[points.length - 1]!];
  const risePa = last.pressurePa - first.pressurePa;
  if (risePa < EARLY_RISE_SHARE * (terms.criteria.maxFinalPa - first.pressurePa)) return false;
  if (Math.abs(leakAhead) >= CAUSE_AHEAD) return true;
  const best = fits[0]!;
  return leakOf(best, best.best) * (lastS - fromS - best.model.leakFromS) > STRAIGHT_SHARE * risePa;
}

/** Why a record without a fault still does not prove the circuit sound. */
function listDoubts(terms: HoldTerms, evidence: Evidence, level: Estimate): readonly HoldReasonCode[] {
  const { criteria, gauge } = terms;
  const { points } = evidence;
  const doubts: HoldReasonCode[] = [];
  const highestPa = highestLevel(evidence, LEVEL_ALLOWANCE);
  const levelPa = level.value + Math.hypot(highestPa - level.value, gauge.accuracyFraction * level.value);
  if (levelPa > criteria.maxFinalPa) doubts.push("still-heading-for-limit");
  const leakPaPerS = leakOf(evidence.fits[0]!, evidence.fits[0]!.best);
  const mostPaPerS = highestLeak(evidence, PASS_ALLOWANCE);
  const worstPaPerS = leakPaPerS + Math.hypot(mostPaPerS - leakPaPerS, gauge.accuracyFraction * mostPaPerS);
  if (worstPaPerS > criteria.maxSteadyRisePaPerS) {
    const cooledK = Math.max(...points.map(({ warmingK }) => -warmingK));
    doubts.push(cooledK > 2 ? "temperature-hides-leak" : "leak-not-bounded");
    if (evidence.widening > DISTURBED_WIDENING) doubts.push("pressure-disturbed");
  }
  if (isTooCoarse(points, terms)) doubts.push("gauge-too-coarse");
  return doubts;
}

function nearWaterLine({ wallTemperatureK }: HoldTerms, level: Estimate): boolean {
  const waterPa = saturationPressurePa(wallTemperatureK);
  return level.lowest.value < 1.15 * waterPa && level.highest.value > 0.85 * waterPa;
}

/** The interval with the gauge's own accuracy in it; where the gauge saw no circuit, anything is possible. */
function leakInterval(
  { value, lowest, highest }: Estimate,
  { gauge }: HoldTerms,
  blind: boolean,
  lastS: number,
): readonly [number, number] {
  if (blind) return [0, STANDARD_ATMOSPHERE_PA / Math.max(lastS, 1)];
  const scalePaPerS = WANDERING_ACCURACY * gauge.accuracyFraction * value;
  return [
    Math.max(0, value - Math.hypot(value - lowest.value, scalePaPerS)),
    value + Math.hypot(highest.value - value, scalePaPerS),
  ];
}

function tooFew(log: ReadingLog, terms: HoldTerms): HoldJudgement {
  const codes: HoldReasonCode[] = ["too-few-readings"];
  if (terms.gauge.location === "pump") codes.unshift("gauge-at-pump");
  if (log.ignored > 0) codes.push("readings-ignored");
  const facts: ReasonFacts = {
    terms,
    lastS: log.receivedS,
    lastPa: 0,
    leakPaPerS: [0, 0],
    levelPa: [0, 0, 0],
    ignored: log.ignored,
  };
  return {
    rulesVersion: HOLD_RULES_VERSION,
    verdict: "unproven",
    reasons: codes.map((code) => ({ code, text: reasonText(code, facts) })),
    leak: null,
    settlesAt: null,
    smallestLeakShownPaPerS: null,
    band: [],
    nextAction: nextAction("unproven", codes, facts),
  };
}
