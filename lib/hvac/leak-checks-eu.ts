import { addDays, addMonths } from "./calendar-day";
import { carbonDioxideEquivalentT, globalWarmingPotential } from "./refrigerants/global-warming";
import type { Refrigerant } from "./refrigerants/refrigerant";
import {
  EU_CHECK_BANDS,
  EU_DETECTION_FROM,
  EU_HERMETIC_EXEMPT_BELOW,
  EU_RECHECK,
  EU_SOURCES,
  type EuGasList,
} from "./rules/eu-leak-checks";
import type { Source } from "./rules/source";

export interface EuLeakCheckCase {
  readonly refrigerant: Refrigerant;
  readonly chargeKg: number;
  readonly detectionSystem: boolean;
  /** Hermetically sealed, labelled so, and its connected parts shown to leak under 3 g a year. */
  readonly hermeticLabelled: boolean;
}

export interface EuLeakCheckPlan {
  readonly list: EuGasList;
  readonly carbonDioxideEquivalentT: number;
  /** null: no regular check is due. */
  readonly everyMonths: number | null;
  readonly detectionMandatory: boolean;
  readonly reason: "interval" | "below-threshold" | "hermetic" | "not-listed";
  readonly source: Source;
}

/** The list a refrigerant stands in: a blend with any HFC counts by CO2 equivalent, a pure HFO by mass. */
export function euGasList({ family }: Refrigerant): EuGasList {
  if (family === "HFC" || family === "HFC/HFO") return "annex-1";
  return family === "HFO" ? "annex-2-section-1" : "not-listed";
}

/**
 * How often a circuit must be checked for leaks in the EU, in months.
 *
 * @source Regulation (EU) 2024/573 Articles 5 and 6
 */
export function planEuLeakChecks(circuit: EuLeakCheckCase): EuLeakCheckPlan {
  const { refrigerant, chargeKg } = circuit;
  const list = euGasList(refrigerant);
  const tonnes = carbonDioxideEquivalentT(chargeKg, globalWarmingPotential(refrigerant, "eu-2024-573"));
  const plan = { list, carbonDioxideEquivalentT: tonnes, detectionMandatory: false, everyMonths: null };
  if (list === "not-listed") return { ...plan, reason: "not-listed", source: EU_SOURCES.interval };
  const byMass = list === "annex-2-section-1";
  const amount = byMass ? chargeKg : tonnes;
  const exemptBelow = byMass ? EU_HERMETIC_EXEMPT_BELOW.kg : EU_HERMETIC_EXEMPT_BELOW.tonnes;
  if (circuit.hermeticLabelled && amount < exemptBelow)
    return { ...plan, reason: "hermetic", source: EU_SOURCES.hermetic };
  const band = EU_CHECK_BANDS.findLast((candidate) => amount >= (byMass ? candidate.fromKg : candidate.fromT));
  if (band === undefined) return { ...plan, reason: "below-threshold", source: EU_SOURCES.interval };
  return {
    ...plan,
    everyMonths: circuit.detectionSystem ? band.monthsWithDetection : band.months,
    detectionMandatory: amount >= (byMass ? EU_DETECTION_FROM.kg : EU_DETECTION_FROM.tonnes),
    reason: "interval",
    source: EU_SOURCES.interval,
  };
}

export interface EuCheckWindow extends Source {
  /** First day on which the check counts. */
  readonly from: string;
  readonly dueBy: string;
}

/** When the next regular check is due; null where none is. */
export function nextEuLeakCheck(plan: EuLeakCheckPlan, lastCheckedOn: string): EuCheckWindow | null {
  if (plan.everyMonths === null) return null;
  return { from: lastCheckedOn, dueBy: addMonths(lastCheckedOn, plan.everyMonths), ...plan.source };
}

/** When a repaired leak is checked again: after a day of running, within a month. */
export function euRecheckAfterRepair(repairedOn: string): EuCheckWindow {
  const from = addDays(repairedOn, EU_RECHECK.notBeforeHours / 24);
  return { from, dueBy: addMonths(repairedOn, EU_RECHECK.withinMonths), ...EU_SOURCES.recheck };
}

/** Charge in kg at which a CO2 equivalent is reached. */
export function chargeForCarbonDioxideEquivalentKg(refrigerant: Refrigerant, tonnes: number): number {
  return (tonnes * 1000) / globalWarmingPotential(refrigerant, "eu-2024-573");
}
