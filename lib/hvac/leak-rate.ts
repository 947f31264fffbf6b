import { err, ok, type Result } from "@/lib/result";
import { daysBetween } from "./calendar-day";
import { type LeakRulePart, type LeakUse, PART_82_LEAST_CHARGE_KG, PART_84 } from "./rules/us-leak";

const DAYS_PER_YEAR = 365;

/** One service event that added refrigerant; several top-ups in one event count as one. */
export interface TopUp {
  readonly date: string;
  readonly addedKg: number;
}

export type LeakRateError =
  | { readonly code: "full-charge-not-positive"; readonly fullChargeKg: number }
  | { readonly code: "top-up-negative"; readonly addedKg: number }
  | { readonly code: "interval-not-positive"; readonly daysSinceLastCharge: number };

/**
 * Yearly loss implied by one top-up, as a fraction of full charge (0.15 = 15 % a year).
 *
 * The annualizing method: the fraction added, scaled from the days since the last charge to a year. An interval
 * longer than a year, or none before, counts as one year, so an old leak is not diluted.
 * @param daysSinceLastCharge whole days; null where this is the first addition
 * @returns fraction per year, unbounded above; or the input that makes the method meaningless
 * @source 40 CFR 82.152, 84.102 "leak rate", method (1)
 */
export function annualizedLeakRate(
  addedKg: number,
  fullChargeKg: number,
  daysSinceLastCharge: number | null,
): Result<number, LeakRateError> {
  const days = daysSinceLastCharge ?? DAYS_PER_YEAR;
  if (!(fullChargeKg > 0)) return err({ code: "full-charge-not-positive", fullChargeKg });
  if (!(addedKg >= 0)) return err({ code: "top-up-negative", addedKg });
  if (!(days > 0)) return err({ code: "interval-not-positive", daysSinceLastCharge: days });
  return ok(((addedKg / fullChargeKg) * DAYS_PER_YEAR) / Math.min(days, DAYS_PER_YEAR));
}

/**
 * Yearly loss as a fraction of full charge: everything added in the 365 days up to and with `onDate`.
 *
 * @param verifiedOn day of the last successful follow-up test that showed every leak repaired; additions up to
 *   that day no longer count
 * @source 40 CFR 82.152, 84.102 "leak rate", method (2); the "since" clause from memory
 */
export function rollingLeakRate(
  topUps: readonly TopUp[],
  fullChargeKg: number,
  onDate: string,
  verifiedOn?: string | undefined,
): Result<number, LeakRateError> {
  if (!(fullChargeKg > 0)) return err({ code: "full-charge-not-positive", fullChargeKg });
  let sumKg = 0;
  for (const { date, addedKg } of topUps) {
    if (!(addedKg >= 0)) return err({ code: "top-up-negative", addedKg });
    const daysAgo = daysBetween(date, onDate);
    if (daysAgo >= 0 && daysAgo < DAYS_PER_YEAR && (verifiedOn === undefined || date > verifiedOn)) sumKg += addedKg;
  }
  return ok(sumKg / fullChargeKg);
}

/** Which part of the US rule holds this appliance, or none. */
export function leakRulePart(appliance: {
  readonly ozoneDepleting: boolean;
  readonly gwp: number;
  readonly fullChargeKg: number;
  readonly use: LeakUse;
  /** Residential and light commercial air conditioning or heat pump: outside Part 84. */
  readonly residentialOrLightCommercial: boolean;
  readonly date: string;
}): LeakRulePart | null {
  const { fullChargeKg } = appliance;
  if (appliance.ozoneDepleting) return fullChargeKg >= PART_82_LEAST_CHARGE_KG * (1 - 1e-9) ? "part-82" : null;
  const inForce = appliance.date >= PART_84.fromDate && appliance.gwp > PART_84.gwpAbove;
  if (!inForce || appliance.residentialOrLightCommercial) return null;
  return fullChargeKg >= PART_84.leastChargeKg * (1 - 1e-9) ? "part-84" : null;
}
