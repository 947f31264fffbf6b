import { addDays } from "./calendar-day";
import type { Source } from "./rules/source";
import {
  CHRONIC_LEAK,
  INSPECTION_SOURCE,
  LEAK_DEADLINES,
  LEAK_DETECTION,
  LEAK_TRIGGER_FRACTION,
  LEAK_TRIGGER_SOURCES,
  type LeakRulePart,
  type LeakUse,
  QUARTERLY_INSPECTION_FROM_KG,
} from "./rules/us-leak";

export interface LeakDuty extends Source {
  readonly code:
    | "repair"
    | "initial-verification"
    | "follow-up-verification"
    | "leak-inspection"
    | "retrofit-plan"
    | "chronic-report";
  readonly text: string;
  /** Last day, "2026-12-25"; null where another event sets it. */
  readonly dueBy: string | null;
}

export interface LeakRateJudgement {
  readonly verdict: "below-trigger" | "above-trigger" | "not-covered";
  readonly leakFraction: number;
  readonly triggerFraction: number | null;
  readonly source: Source | null;
  readonly duties: readonly LeakDuty[];
}

export interface LeakRateCase {
  readonly part: LeakRulePart | null;
  readonly use: LeakUse;
  readonly leakFraction: number;
  readonly fullChargeKg: number;
  /** Day on which refrigerant was added and the rate computed. */
  readonly date: string;
  readonly processShutdownNeeded: boolean;
  /** Everything added in the calendar year of `date`. */
  readonly addedThisYearKg: number;
}

/** Whether the rate is above the trigger, and everything that is then due with its last day. */
export function judgeLeakRate(leak: LeakRateCase): LeakRateJudgement {
  const { part, use, leakFraction, fullChargeKg, date } = leak;
  if (part === null) return { verdict: "not-covered", leakFraction, triggerFraction: null, source: null, duties: [] };
  const triggerFraction = LEAK_TRIGGER_FRACTION[use];
  const above = leakFraction > triggerFraction;
  const duties: LeakDuty[] = [];
  if (above) duties.push(...repairDuties(leak));
  if (leak.addedThisYearKg >= CHRONIC_LEAK.fraction * fullChargeKg)
    duties.push({
      code: "chronic-report",
      text: "125 % or more of the full charge was added this year: report to the agency.",
      dueBy: `${Number(date.slice(0, 4)) + 1}-${CHRONIC_LEAK.reportBy}`,
      source: CHRONIC_LEAK.source,
      mark: CHRONIC_LEAK.mark,
    });
  const verdict = above ? "above-trigger" : "below-trigger";
  return { verdict, leakFraction, triggerFraction, source: LEAK_TRIGGER_SOURCES[part], duties };
}

function repairDuties({ part, use, fullChargeKg, date, processShutdownNeeded }: LeakRateCase): LeakDuty[] {
  const { repairDays, repairDaysWithShutdown, followUpDays, planDays } = LEAK_DEADLINES;
  const repair = processShutdownNeeded ? repairDaysWithShutdown : repairDays;
  const dueBy = addDays(date, repair.days);
  return [
    { code: "repair", text: "Repair the leaks.", dueBy, source: repair.source, mark: repair.mark },
    {
      code: "initial-verification",
      text: "Test every repaired leak before refrigerant goes back in.",
      dueBy,
      source: "40 CFR 82.157(e)",
      mark: "memory",
    },
    {
      code: "follow-up-verification",
      text: `Test again within ${followUpDays.days} days of a successful initial test or of normal operation.`,
      dueBy: null,
      source: followUpDays.source,
      mark: followUpDays.mark,
    },
    {
      code: "retrofit-plan",
      text: `If the repair fails, a retrofit or retirement plan is due ${planDays.days} days after that, the work within a year.`,
      dueBy: null,
      source: planDays.source,
      mark: planDays.mark,
    },
    { code: "leak-inspection", text: inspectionText(part, use, fullChargeKg), dueBy: null, ...INSPECTION_SOURCE },
  ];
}

function inspectionText(part: LeakRulePart | null, use: LeakUse, fullChargeKg: number): string {
  const large =
    fullChargeKg >= QUARTERLY_INSPECTION_FROM_KG * (1 - 1e-9) &&
    (use === "industrial-process-refrigeration" || use === "commercial-refrigeration");
  const until = part === "part-82" ? (large ? " until four quarters stay below" : " until one year stays below") : "";
  return large ? `Inspect for leaks every three months${until}.` : `Inspect for leaks once a year${until}.`;
}

/**
 * Whether an automatic leak detection system is required, and by when; null where it is not.
 *
 * @param installedOn day of installation: an appliance in place before 2026 has until the rule's later date
 * @source 40 CFR 84.108 (memory)
 */
export function leakDetectionDueBy(
  part: LeakRulePart | null,
  use: LeakUse,
  fullChargeKg: number,
  installedOn: string,
): string | null {
  const { uses, fromChargeKg, existingFrom, newFrom, existingBy, newWithinDays } = LEAK_DETECTION;
  if (part !== "part-84" || !uses.includes(use) || fullChargeKg < fromChargeKg * (1 - 1e-9)) return null;
  if (installedOn >= newFrom) return addDays(installedOn, newWithinDays);
  return installedOn >= existingFrom ? existingBy : null;
}

export interface VerificationRecord {
  readonly repairedOn: string;
  readonly initialTestOn: string | null;
  readonly initialTestPassed: boolean;
  /** Day of normal operating conditions, where the follow-up waits for it. */
  readonly normalOperationOn: string | null;
  readonly followUpTestOn: string | null;
  readonly followUpTestPassed: boolean;
}

export type VerificationState =
  | { readonly state: "initial-due" | "repair-again" | "verified" }
  | { readonly state: "follow-up-due"; readonly dueBy: string }
  | { readonly state: "follow-up-late"; readonly dueBy: string };

/** Where the two verification tests of a repair stand. @source 40 CFR 82.157(e), ten days [secondary] */
export function verificationState(record: VerificationRecord): VerificationState {
  if (record.initialTestOn === null) return { state: "initial-due" };
  if (!record.initialTestPassed) return { state: "repair-again" };
  const from = record.normalOperationOn ?? record.initialTestOn;
  const dueBy = addDays(from, LEAK_DEADLINES.followUpDays.days);
  if (record.followUpTestOn === null) return { state: "follow-up-due", dueBy };
  if (!record.followUpTestPassed) return { state: "repair-again" };
  return record.followUpTestOn > dueBy ? { state: "follow-up-late", dueBy } : { state: "verified" };
}
