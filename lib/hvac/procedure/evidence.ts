import type {
  CircuitFacts,
  EvacuateCriteria,
  EvidenceOf,
  LeakCheckCriteria,
  SkipGrounds,
  VacuumReading,
} from "../log/entry";
import { type EvidenceCode, evidenceText } from "./evidence-words";
import type { Outcome, StepVerdict } from "./verdict";

/*
 * Checks of what a step has to show, where no formula is asked. What is missing leaves the step unproven;
 * what went wrong fails it.
 */

/** What the checks know beside the evidence itself. */
export interface EvidenceGround {
  readonly circuit: CircuitFacts | null;
  readonly flammable: boolean;
  /** The job is, or has turned out to be, one of an opened, wet or burnt-out circuit. */
  readonly wet: boolean;
  /** The last hold found water: only three evacuations answer that. */
  readonly dryAgain: boolean;
  /** Whether verification tests are a duty in this job. */
  readonly verificationDue: boolean;
}

interface Finding {
  readonly code: EvidenceCode;
  readonly fails: boolean;
}
type Findings = (Finding | false)[];
const lacks = (missing: boolean, code: EvidenceCode): Finding | false => missing && { code, fails: false };
const wrong = (happened: boolean, code: EvidenceCode): Finding | false => happened && { code, fails: true };

export const EVIDENCE_RULES_VERSION = "evidence-1";

const COMPLETE: StepVerdict = {
  outcome: "passed",
  verdict: "complete",
  reasons: [],
  figures: {},
  rulesVersion: EVIDENCE_RULES_VERSION,
};

/** The verdict that a list of findings amounts to. */
function verdictFrom(findings: Findings): StepVerdict {
  if (findings.every((finding) => finding === false)) return COMPLETE;
  const found = findings.filter((finding) => finding !== false);
  const failing = found.filter((finding) => finding.fails);
  const outcome: Outcome = failing.length > 0 ? "failed" : "unproven";
  const named = outcome === "failed" ? failing : found;
  return {
    outcome,
    verdict: outcome === "failed" ? "failed" : "incomplete",
    reasons: named.map(({ code }) => ({ code, text: evidenceText(code) })),
    figures: {},
    rulesVersion: EVIDENCE_RULES_VERSION,
  };
}

export function judgeMakeSafe(evidence: EvidenceOf<"make_safe">, { flammable }: EvidenceGround): StepVerdict {
  const extra = evidence.flammable;
  return verdictFrom([
    lacks(!evidence.lockedOut, "not-locked-out"),
    lacks(evidence.lockedOut && evidence.lockedOutBy === null, "lockout-nobody"),
    lacks(!evidence.provenDead, "not-proven-dead"),
    lacks(!evidence.storedEnergyDischarged, "energy-stored"),
    lacks(!evidence.ventilated, "not-ventilated"),
    lacks(!evidence.ignitionSourcesControlled, "ignition-not-controlled"),
    lacks(!evidence.refrigerantIdentified, "refrigerant-not-identified"),
    lacks(!evidence.designPressuresRead, "design-pressures-not-read"),
    lacks(flammable && extra === null, "flammable-precautions-missing"),
    lacks(flammable && extra?.detectorOn === false, "detector-off"),
    lacks(flammable && extra?.zoneMarked === false, "zone-not-marked"),
    lacks(flammable && extra?.ignitionSourcesRemoved === false, "ignition-in-zone"),
    lacks(flammable && extra?.extinguisherAtHand === false, "no-extinguisher"),
  ]);
}

/** Flammables ask for a machine and a cylinder that suit them, beside the level. */
export function judgeRecoverExtras(evidence: EvidenceOf<"recover">, { flammable }: EvidenceGround): StepVerdict {
  const byMachine = evidence.method === "recovery-machine";
  return verdictFrom([
    lacks(byMachine && evidence.machine === null, "recovery-machine-unknown"),
    lacks(byMachine && evidence.alternative === null && evidence.cylinders.length === 0, "cylinder-not-weighed"),
    lacks(flammable && evidence.flammable === null, "flammable-recovery-missing"),
    lacks(flammable && byMachine && evidence.flammable?.machineRatedForClass === false, "machine-not-rated"),
    lacks(flammable && evidence.flammable?.cylinderGrounded === false, "cylinder-not-grounded"),
  ]);
}

export function judgeOpenRepair(evidence: EvidenceOf<"open_repair">, ground: EvidenceGround): StepVerdict {
  const brazed = evidence.brazing !== "not-brazed";
  const share = evidence.flammable?.lflPercentBeforeFlame ?? null;
  return verdictFrom([
    lacks(evidence.closedAt < evidence.openedAt, "closed-before-opened"),
    lacks(evidence.joints.length === 0, "joints-not-named"),
    lacks(ground.wet && evidence.newDrier === "none", "no-new-drier"),
    lacks(evidence.contamination === "burn-out" && evidence.newDrier !== "liquid-and-suction", "no-suction-drier"),
    lacks(ground.wet && evidence.acidTest === "not-done", "no-acid-test"),
    lacks(ground.flammable && brazed && evidence.flammable === null, "flame-precautions-missing"),
    lacks(ground.flammable && brazed && evidence.flammable?.purgedBeforeFlame === false, "not-purged-before-flame"),
    lacks(ground.flammable && brazed && evidence.flammable !== null && share === null, "gas-not-measured"),
    lacks(ground.flammable && brazed && share !== null && !(share < 25), "gas-above-quarter-limit"),
  ]);
}

/** What a pressure test has to show beside its readings; the gas comes before any number. */
export function judgePressureTestSetup(evidence: EvidenceOf<"pressure_test">): StepVerdict {
  const nitrogen = evidence.gas === "nitrogen" || evidence.gas === "nitrogen-with-trace";
  return verdictFrom([
    wrong(!nitrogen, "wrong-test-gas"),
    lacks(!evidence.raisedInSteps, "not-raised-in-steps"),
    lacks(!evidence.cylinderDisconnected, "cylinder-connected"),
  ]);
}

/** Every joint that was touched, found tight by a method fine enough to say so. */
export function judgeLeakCheck(
  evidence: EvidenceOf<"leak_check">,
  criteria: LeakCheckCriteria,
  touched: readonly string[],
): StepVerdict {
  const { joints } = evidence;
  const tight = new Set(joints.filter(({ result }) => result === "tight").map(({ joint }) => joint));
  const limit = criteria.maxSensitivityGramPerYear;
  return verdictFrom([
    wrong(
      joints.some(({ result }) => result === "leaking"),
      "joint-leaks",
    ),
    lacks(joints.length === 0, "no-joint-checked"),
    lacks(
      joints.some(({ result }) => result === "not-reached"),
      "joint-not-reached",
    ),
    lacks(
      touched.some((joint) => !tight.has(joint)),
      "joint-left-out",
    ),
    lacks(
      joints.some(
        ({ method, sensitivityGramPerYear }) =>
          (method === "electronic" && sensitivityGramPerYear === null) ||
          (sensitivityGramPerYear !== null && sensitivityGramPerYear > limit),
      ),
      "detector-too-coarse",
    ),
    lacks(!(evidence.checkedAtGaugeKPa > 0), "checked-without-pressure"),
  ]);
}

export function judgeEvacuate(
  evidence: EvidenceOf<"evacuate">,
  readings: readonly VacuumReading[],
  criteria: EvacuateCriteria,
  ground: EvidenceGround,
): StepVerdict {
  const last = readings.at(-1);
  const reached = readings.find(({ micron }) => micron <= criteria.targetMicron);
  const dwellS = last && reached ? last.s - reached.s : 0;
  const sweeps = evidence.sweeps.filter(({ brokenWith }) => brokenWith === "nitrogen");
  const asked = nitrogenSweepsAsked(criteria, ground);
  const deepEnough = criteria.preCycles.every(
    (cycle, index) => (sweeps[index]?.pulledToMicron ?? Infinity) <= cycle.toMicron,
  );
  return verdictFrom([
    wrong(
      evidence.sweeps.some(({ brokenWith }) => brokenWith === "air"),
      "vacuum-broken-to-air",
    ),
    lacks(last === undefined, "no-vacuum-reading"),
    lacks(last !== undefined && last.micron > criteria.targetMicron, "target-not-reached"),
    lacks(criteria.dwellMinutes !== null && dwellS < criteria.dwellMinutes * 60, "dwell-too-short"),
    lacks(sweeps.length < asked, "sweeps-missing"),
    lacks(sweeps.length >= asked && !deepEnough, "sweep-not-deep-enough"),
    lacks(evidence.gauge.location === "pump", "gauge-at-pump"),
    lacks(ground.flammable && evidence.flammable?.pumpSuitedOrExhaustVented !== true, "pump-not-suited"),
  ]);
}
/** A triple evacuation is three pulls: two of them are broken again with nitrogen. */
const SWEEPS_OF_TRIPLE = 2;

/** How many pulls have to be broken with nitrogen before the last one. */
export function nitrogenSweepsAsked(
  criteria: Pick<EvacuateCriteria, "preCycles">,
  { wet, dryAgain }: Pick<EvidenceGround, "wet" | "dryAgain">,
): number {
  return Math.max(criteria.preCycles.length, wet || dryAgain ? SWEEPS_OF_TRIPLE : 0);
}

/** What charging has to show beside its mass; air in a dry circuit throws the evacuation away. */
export function judgeChargeSetup(evidence: EvidenceOf<"break_and_charge">, { flammable }: EvidenceGround): StepVerdict {
  const extra = evidence.flammable;
  return verdictFrom([
    wrong(evidence.brokenWith === "air", "vacuum-broken-to-air"),
    wrong(evidence.brokenWith === "nitrogen", "vacuum-broken-with-nitrogen"),
    lacks(!evidence.compressorOffUnderVacuum, "compressor-ran-under-vacuum"),
    lacks(flammable && extra === null, "charge-limit-not-checked"),
    lacks(flammable && extra?.scaleGrounded === false, "scale-not-grounded"),
    lacks(flammable && extra?.hosesPurged === false, "hoses-not-purged"),
  ]);
}

export function judgeClose(evidence: EvidenceOf<"close">): StepVerdict {
  return verdictFrom([
    wrong(evidence.portLeakCheck.result === "leaking", "port-leaks"),
    lacks(evidence.portLeakCheck.result === "not-done", "ports-not-checked"),
    lacks(!evidence.coresIn, "cores-missing"),
    lacks(!evidence.capsWithSealsFitted, "caps-missing"),
    lacks(!evidence.capsTightened, "caps-loose"),
  ]);
}

export function judgeRecords(evidence: EvidenceOf<"records">, ground: EvidenceGround): StepVerdict {
  const { verification } = evidence;
  return verdictFrom([
    lacks(evidence.customerSignature === null && !evidence.customerAbsent, "customer-not-asked"),
    lacks(!evidence.labelAttached, "label-missing"),
    lacks(ground.verificationDue && verification === null, "verification-not-planned"),
    lacks(ground.verificationDue && verification?.initialTestPassed === false, "verification-failed"),
    lacks(ground.wet && evidence.recheckDueBy === null, "recheck-not-planned"),
    lacks(ground.flammable && evidence.flammable === null, "flammable-label-missing"),
  ]);
}

/** Whether the grounds for leaving a step out show what they have to. */
export function skipIsShown(grounds: SkipGrounds): boolean {
  switch (grounds.reason) {
    case "circuit-not-opened":
      return grounds.sealsIntact;
    case "no-port-touched":
      return grounds.capsIntact;
    case "no-refrigerant-in-line-set":
      return grounds.serviceValvesClosed;
    case "other":
      return false;
  }
}
