import type { EvidenceOf, LogEntry, StepRecord } from "../log/entry";
import type { StepId } from "../log/step";
import { criteriaInForce } from "../procedure/criteria";
import type { JobState } from "../procedure/state";
import type { Calibration, HoldFacts, ProofFacts } from "./judge-proof";

type Evidence = { readonly [S in StepId]: EvidenceOf<S> };

/** Gathers what the strength of proof is judged by from a job's state and the entries it rests on. */
export function proofFacts(state: JobState, entries: Iterable<LogEntry>): ProofFacts {
  const all = [...entries];
  const byId = new Map(all.map((entry) => [entry.id, entry]));
  const evidenceOf = <S extends StepId>(step: S): Evidence[S] | null => {
    const settled = state.steps.find((one) => one.step === step);
    const entry = settled?.settledBy === "record" && settled.entry ? byId.get(settled.entry) : undefined;
    return entry?.kind === "step-recorded" ? (entry.body.evidence as unknown as Evidence[S]) : null;
  };
  const hold = evidenceOf("hold");
  const test = evidenceOf("pressure_test");
  const evacuation = evidenceOf("evacuate");
  const repair = evidenceOf("open_repair");
  const joints = evidenceOf("leak_check")?.joints ?? null;
  const corrections = all.filter((entry) => entry.kind === "step-recorded" && entry.supersedes !== undefined);
  const tests: ReadonlySet<string> = new Set<StepId>(["recover", "pressure_test", "leak_check", "evacuate", "hold"]);
  const day = (hold ? byId.get(entryOf(state, "hold")!)?.deviceAt : undefined)?.slice(0, 10);
  const charge = evidenceOf("break_and_charge");
  const chargedOn = (charge ? byId.get(entryOf(state, "break_and_charge")!)?.deviceAt : undefined)?.slice(0, 10);
  const due = [hold?.gauge.calibrationDueOn, test?.gauge.calibrationDueOn].filter((one) => one !== undefined);
  return {
    settled: state.missingForClose.length === 0,
    overridden: state.steps.some(({ settledBy }) => settledBy === "override"),
    opened: state.circuitWasOpened,
    calibrations: due.map(
      (on): Calibration => (on === null ? "unknown" : day !== undefined && on < day ? "overdue" : "in-date"),
    ),
    scaleOverdue:
      charge?.scale?.calibrationDueOn != null && chargedOn !== undefined && chargedOn > charge.scale.calibrationDueOn,
    hold: hold && holdFacts(state, hold),
    coresOut: evacuation?.coresOut ?? null,
    pumpOil: evacuation?.oil ?? null,
    ratedLeakCheck: joints?.some(({ sensitivityGramPerYear }) => sensitivityGramPerYear !== null) ?? null,
    brazedWithoutNitrogen: repair?.brazing === "without-nitrogen",
    newDrier: repair && state.kindInForce !== "new_install_precharged" ? repair.newDrier !== "none" : null,
    criteriaLoosened: (["evacuate", "hold", "pressure_test", "leak_check"] as const).some(
      (step) => criteriaInForce(step, state.criteria, state)?.makerIsLooser === true,
    ),
    failedTestCorrected: state.correctedFailures.length > 0,
    recordCorrected: corrections.some((entry) => tests.has((entry.body as StepRecord).step)),
    alarms: state.alarms.map(({ code }) => code),
  };
}

function entryOf(state: JobState, step: StepId) {
  return state.steps.find((one) => one.step === step)?.entry ?? null;
}

function holdFacts(state: JobState, evidence: EvidenceOf<"hold">): HoldFacts {
  const { record } = evidence;
  const figures = state.steps.find(({ step }) => step === "hold")?.verdict?.figures ?? {};
  const criteria = criteriaInForce("hold", state.criteria, state)!.values;
  return {
    readings: record.kept === "trace" ? record.trace.sampleCount : record.readings.length,
    typed: evidence.source === "typed",
    // A trace carries its temperatures beside the pressures; the entry alone cannot say that it has none.
    temperaturesLogged:
      record.kept === "trace" || record.readings.some(({ temperatureC }) => temperatureC !== undefined),
    smallestLeakShownMicronPerMin: figures.smallestLeakShownMicronPerMin ?? null,
    maxSteadyRiseMicronPerMin: criteria.maxSteadyRiseMicronPerMin,
    settlesHighMicron: figures.settlesHighMicron ?? null,
    maxFinalMicron: criteria.maxFinalMicron,
  };
}
