import type { EvidenceOf, JobState, LogEntry, StepId, StepState } from "@/lib/hvac/procedure";
import { criteriaInForce, stepName } from "@/lib/hvac/procedure";
import { evidenceLines, gaugeText } from "@/lib/work/evidence-lines";

/** How a test stands on the paper; each has a shape, a colour and a word of its own. */
export type Standing = "proven" | "allowed" | "left-out";

export interface Finding {
  readonly test: string;
  readonly standing: Standing;
  readonly word: string;
  /** Plain sentences, the numbers with their units. */
  readonly sentences: readonly string[];
}

const TESTS = ["pressure_test", "leak_check", "hold"] as const;

/** The three tests a proof of tightness and dryness rests on, each in plain words. */
export function listFindings(state: JobState, entries: readonly LogEntry[]): Finding[] {
  return TESTS.flatMap((test) => {
    const step = state.steps.find((each) => each.step === test);
    return step ? [findingOf(step, state, entries)] : [];
  });
}

function findingOf(step: StepState, state: JobState, entries: readonly LogEntry[]): Finding {
  const entry = entries.find((each) => each.id === step.entry);
  const test = stepName(step.step);
  if (step.settledBy === "skip") {
    const statement = entry?.kind === "step-skipped" ? [entry.body.grounds.statement] : [];
    return { test, standing: "left-out", word: "Left out on its grounds", sentences: statement };
  }
  if (step.settledBy === "override") {
    const allowed = state.overrides.find((each) => each.step === step.step && each.stands);
    const why = allowed ? [`Asked: ${allowed.why}`, `Allowed: ${allowed.answerWhy ?? ""}`] : [];
    const measured = step.verdict?.reasons.map(({ text }) => text) ?? [];
    return { test, standing: "allowed", word: "Not proven, allowed by a supervisor", sentences: [...measured, ...why] };
  }
  return {
    test,
    standing: "proven",
    word: provenWord[step.step] ?? "Proven",
    sentences: measuredIn(step, state, entry),
  };
}

const provenWord: Partial<Record<StepId, string>> = {
  pressure_test: "Tight",
  leak_check: "No joint found leaking",
  hold: "Dry and tight",
};

function measuredIn(step: StepState, state: JobState, entry: LogEntry | undefined): string[] {
  if (entry?.kind !== "step-recorded") return [];
  switch (step.step) {
    case "pressure_test": {
      const limit = criteriaInForce("pressure_test", state.criteria, state)?.values.maxLeakKPaPerHour;
      const leak = step.verdict?.figures.leakHighKPaPerHour;
      const seen = evidenceLines(entry.body)[1];
      const bound =
        leak === undefined || limit === undefined
          ? []
          : [`No leak above ${digits(leak)} kPa/h, where ${limit} kPa/h is allowed.`];
      return [...(seen ? [`${seen}.`] : []), ...bound];
    }
    case "leak_check":
      return leakCheckSentences(entry.body.evidence as EvidenceOf<"leak_check">);
    default:
      return step.verdict?.reasons.map(({ text }) => text) ?? [];
  }
}

function leakCheckSentences({ joints, checkedAtGaugeKPa }: EvidenceOf<"leak_check">): string[] {
  const known = joints.flatMap(({ sensitivityGramPerYear }) => sensitivityGramPerYear ?? []);
  const count = joints.length === 1 ? "One joint" : `${joints.length} joints`;
  return [
    `${count} checked at ${gaugeText(checkedAtGaugeKPa)}.`,
    known.length === 0
      ? "The method used has no stated sensitivity."
      : `No leak above ${Math.max(...known)} g a year, the least the detector shows.`,
  ];
}

function digits(value: number): string {
  return value < 0.1 ? value.toFixed(3) : value.toPrecision(2);
}
