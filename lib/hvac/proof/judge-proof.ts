import { PROOF_LIMITS, type ProofLimitCode } from "./proof-words";

export type Strength = "strong" | "fair" | "weak" | "none";

export type Calibration = "in-date" | "overdue" | "unknown";

/** What is asked of a job's evidence to say how strong its proof is. */
export interface ProofFacts {
  /** Every required step is settled in one way or another. */
  readonly settled: boolean;
  readonly overridden: boolean;
  /** The circuit was opened, so tightness and dryness had to be shown. */
  readonly opened: boolean;
  readonly calibrations: readonly Calibration[];
  /** The charge was weighed on a scale past its calibration date. */
  readonly scaleOverdue: boolean;
  readonly hold: HoldFacts | null;
  readonly coresOut: boolean | null;
  readonly pumpOil: "fresh" | "clear" | "cloudy" | "dark" | "not-looked" | null;
  /** A joint was checked by a detector whose sensitivity is known. */
  readonly ratedLeakCheck: boolean | null;
  readonly brazedWithoutNitrogen: boolean;
  readonly newDrier: boolean | null;
  readonly criteriaLoosened: boolean;
  readonly failedTestCorrected: boolean;
  readonly recordCorrected: boolean;
  readonly alarms: readonly string[];
}
export interface HoldFacts {
  readonly readings: number;
  readonly typed: boolean;
  readonly temperaturesLogged: boolean;
  readonly smallestLeakShownMicronPerMin: number | null;
  readonly maxSteadyRiseMicronPerMin: number;
  readonly settlesHighMicron: number | null;
  readonly maxFinalMicron: number;
}

export interface ProofLimit {
  readonly code: ProofLimitCode;
  /** The best a proof with this limit can be. */
  readonly atMost: Strength;
  readonly text: string;
}
export interface Proof {
  readonly strength: Strength;
  readonly reasons: readonly ProofLimit[];
  /** "No leak above X" may be said of no smaller X; null where the hold says nothing of it. */
  readonly smallestLeakShownMicronPerMin: number | null;
  readonly settlesHighMicron: number | null;
}

export const PROOF_RULES_VERSION = "proof-2";
const ORDER: readonly Strength[] = ["strong", "fair", "weak", "none"];
const FEW_TYPED_READINGS = 5;
/** From four fifths of a limit on, a result is called close to it. */
const CLOSE_FRACTION = 0.8;
const SERIOUS: ReadonlySet<string> = new Set([
  "over-pressure",
  "wrong-test-gas",
  "vacuum-broken-to-air",
  "compressor-ran-under-vacuum",
]);
const OUT_OF_ORDER: ReadonlySet<string> = new Set([
  "opened-before-recovery",
  "evacuated-before-tests",
  "charged-before-hold",
  "recorded-out-of-order",
]);

/**
 * How strong the proof of a job is: strong, or as far as its weakest evidence lets it be, with every reason.
 *
 * Each limit stands alone and only ever lowers the strength; two weak points are no weaker than one. What a limit is
 * worth is this product's own choice.
 */
export function judgeProof(facts: ProofFacts): Proof {
  const codes = (Object.keys(PROOF_LIMITS) as ProofLimitCode[]).filter((code) => applies(code, facts));
  const reasons = codes.map((code): ProofLimit => {
    const [atMost, text] = PROOF_LIMITS[code];
    return { code, atMost, text };
  });
  const lowest = Math.max(0, ...reasons.map(({ atMost }) => ORDER.indexOf(atMost)));
  return {
    strength: ORDER[lowest] ?? "none",
    reasons,
    smallestLeakShownMicronPerMin: facts.hold?.smallestLeakShownMicronPerMin ?? null,
    settlesHighMicron: facts.hold?.settlesHighMicron ?? null,
  };
}

function applies(code: ProofLimitCode, facts: ProofFacts): boolean {
  const { hold } = facts;
  switch (code) {
    case "not-proven":
      return !facts.settled;
    case "override-used":
      return facts.overridden;
    case "calibration-overdue":
      return facts.calibrations.includes("overdue");
    case "calibration-unknown":
      return facts.calibrations.includes("unknown");
    case "scale-overdue":
      return facts.scaleOverdue;
    case "few-readings":
      return hold?.typed === true && hold.readings < FEW_TYPED_READINGS;
    case "typed-by-hand":
      return hold?.typed === true;
    case "temperature-not-logged":
      return hold?.temperaturesLogged === false;
    case "leak-barely-bounded":
      return above(hold?.smallestLeakShownMicronPerMin, hold?.maxSteadyRiseMicronPerMin);
    case "level-near-limit":
      return above(hold?.settlesHighMicron, hold?.maxFinalMicron);
    case "leak-bound-unknown":
      return hold !== null && hold.smallestLeakShownMicronPerMin === null;
    case "serious-alarm":
      return facts.alarms.some((alarm) => SERIOUS.has(alarm));
    case "out-of-order":
      return facts.alarms.some((alarm) => OUT_OF_ORDER.has(alarm));
    case "judged-otherwise":
      return facts.alarms.includes("device-judged-otherwise");
    case "criteria-loosened":
      return facts.criteriaLoosened;
    case "failed-test-corrected":
      return facts.failedTestCorrected;
    case "record-corrected":
      return facts.recordCorrected;
    case "cores-left-in":
      return facts.coresOut === false;
    case "pump-oil-poor":
      return facts.pumpOil !== null && facts.pumpOil !== "fresh" && facts.pumpOil !== "clear";
    case "detector-unrated":
      return facts.ratedLeakCheck === false;
    case "brazed-without-nitrogen":
      return facts.brazedWithoutNitrogen;
    case "no-new-drier":
      return facts.newDrier === false;
    case "circuit-not-tested":
      return !facts.opened;
  }
}

function above(value: number | null | undefined, limit: number | undefined): boolean {
  return typeof value === "number" && limit !== undefined && value > CLOSE_FRACTION * limit;
}
