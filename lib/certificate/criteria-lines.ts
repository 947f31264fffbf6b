import type { JobState } from "@/lib/hvac/procedure";
import { criteriaInForce, stepName } from "@/lib/hvac/procedure";
import { gaugeText, vacuumText } from "@/lib/work/evidence-lines";

export interface CriteriaLine {
  readonly step: string;
  readonly asked: string;
  readonly sources: string;
}

/** What each test was judged by and where that is written. */
export function listCriteria(state: Pick<JobState, "criteria" | "circuit" | "wet">): CriteriaLine[] {
  return (["pressure_test", "leak_check", "evacuate", "hold"] as const).flatMap((step) => {
    const inForce = criteriaInForce(step, state.criteria, state);
    if (!inForce) return [];
    const asked = Object.entries(inForce.values).flatMap(([name, value]) => criterionWords(name, value) ?? []);
    return [{ step: stepName(step), asked: `${asked.join("; ")}.`, sources: inForce.sources.join("; ") }];
  });
}

function criterionWords(name: string, value: unknown): string | null {
  if (Array.isArray(value)) {
    return value.length === 0 ? null : `broken with nitrogen ${value.length} times before the last pull`;
  }
  if (typeof value !== "number") return null;
  switch (name) {
    case "targetMicron":
      return `target ${vacuumText(value)}`;
    case "dwellMinutes":
      return `pump on for ${value} min after the target`;
    case "holdMinutes":
      return `held for ${value} min`;
    case "maxFinalMicron":
      return `at the end at most ${vacuumText(value)}`;
    case "maxSteadyRiseMicronPerMin":
      return `steady rise at most ${value} micron/min`;
    case "failAtMicron":
      return `fails at ${vacuumText(value)}`;
    case "testPressureKPaGauge":
      return `at ${gaugeText(value)} at least`;
    case "maxLeakKPaPerHour":
      return `leak at most ${value} kPa/h`;
    case "maxSensitivityGramPerYear":
      return `a detector that shows ${value} g/yr or less`;
    default:
      return null;
  }
}
