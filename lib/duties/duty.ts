import type { GwpSet } from "@/lib/hvac/refrigerants/global-warming";
import type { Source } from "@/lib/hvac/rules/source";
import type { LeakRulePart, LeakUse } from "@/lib/hvac/rules/us-leak";

export type DutyCode =
  | "repair"
  | "initial-verification"
  | "follow-up-verification"
  | "retrofit-plan"
  | "retrofit-done"
  | "leak-inspection"
  | "chronic-report"
  | "leak-detection"
  | "leak-check"
  | "recheck"
  | "detection-check";

/** Who has to see to it by the rule's own words; who is asked to do the work is another matter. */
export type Bearer = "owner-or-operator" | "contractor" | "owner-by-certified-person";

export interface Duty extends Source {
  readonly code: DutyCode;
  /** What it comes from: the day the trigger was exceeded, the check before it, the installation. */
  readonly since: string;
  readonly text: string;
  /** First day on which doing it counts, where there is one. */
  readonly from: string | null;
  /** Last day, "2026-12-25"; null where another event sets it. */
  readonly dueBy: string | null;
  readonly doneOn: string | null;
  readonly whose: Bearer;
}

/** What was seen, done or decided about a circuit that the rules ask about. */
export const LAW_EVENTS = [
  "repair",
  "initial-verification",
  "follow-up-verification",
  "normal-operation",
  "leak-inspection",
  "leak-check",
  "recheck",
  "detection-check",
  "detection-fitted",
  "retrofit-plan",
  "retrofit-done",
  "chronic-report",
  "seasonal-return",
] as const;
export type LawEventKind = (typeof LAW_EVENTS)[number];

export interface LawEvent {
  readonly kind: LawEventKind;
  readonly on: string;
  /** Whether a test or check found it tight; null where the kind has no result. */
  readonly passed: boolean | null;
}

/** Refrigerant added to a circuit in one service, net of what was recovered from it in the same. */
export interface Addition {
  readonly on: string;
  readonly grams: number;
}

/** A circuit as the rules ask about it; each circuit of a unit stands for itself. */
export interface CircuitUnderLaw {
  readonly refrigerant: string | null;
  readonly fullChargeKg: number | null;
  readonly use: LeakUse;
  readonly residentialOrLightCommercial: boolean;
  readonly processShutdownNeeded: boolean;
  readonly detectionSystem: boolean;
  readonly hermeticLabelled: boolean;
  /** When it was installed, or since when it is known. */
  readonly installedOn: string;
}

export const LEAK_RATE_METHODS = ["annualizing", "rolling"] as const;
export type LeakRateMethod = (typeof LEAK_RATE_METHODS)[number];

/** The leak rate at one addition. */
export interface LeakRateAt {
  readonly on: string;
  readonly grams: number;
  readonly fraction: number;
  readonly method: LeakRateMethod;
  readonly triggerFraction: number | null;
  readonly above: boolean;
}

export interface Standing {
  /** Whether and why the rule set holds this circuit. */
  readonly coverage: { readonly covered: boolean; readonly text: string } & Source;
  readonly part: LeakRulePart | null;
  readonly gwpSet: GwpSet;
  readonly carbonDioxideEquivalentT: number | null;
  readonly rates: readonly LeakRateAt[];
  readonly duties: readonly Duty[];
}

/** Which of two duties comes first: the earlier last day; one without a day after those with one. */
export function byDueDay(one: Pick<Duty, "dueBy">, other: Pick<Duty, "dueBy">): number {
  return (one.dueBy ?? "9999") < (other.dueBy ?? "9999") ? -1 : 1;
}
