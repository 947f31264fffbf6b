import { CHARGE_CHECK, CHARGE_CHECK_SOURCES } from "../rules/charging";
import type { Source } from "../rules/source";

export interface ChargeCheck {
  readonly method: "superheat" | "subcooling";
  readonly measuredK: number;
  readonly targetK: number;
  readonly outdoorDryBulbK: number;
  /** How long the system ran before the reading. */
  readonly runningS: number;
  /** Tighter or as the maker says; the published tolerance where absent. */
  readonly toleranceK?: number | undefined;
}

export interface ChargeCheckJudgement extends Source {
  readonly verdict: "on-target" | "off-target" | "unproven";
  /** Measured minus target. */
  readonly differenceK: number;
  readonly toleranceK: number;
  readonly reasons: readonly { readonly code: string; readonly text: string }[];
}

/**
 * Whether superheat or subcooling is on target, or the check says nothing under these conditions.
 *
 * High superheat and low subcooling both speak for too little refrigerant, but airflow comes first.
 * @source tolerances, stabilising time, least target and outdoor temperature: California RA3.2.2
 */
export function judgeChargeCheck(check: ChargeCheck): ChargeCheckJudgement {
  const { method, measuredK, targetK } = check;
  const published = method === "superheat" ? CHARGE_CHECK.superheatToleranceK : CHARGE_CHECK.subcoolingToleranceK;
  const toleranceK = check.toleranceK ?? published;
  const differenceK = measuredK - targetK;
  const reasons: { code: string; text: string }[] = [];
  if (check.runningS < CHARGE_CHECK.stabiliseS)
    reasons.push({ code: "not-stabilised", text: "Let the system run at least 15 minutes before reading." });
  if (check.outdoorDryBulbK < CHARGE_CHECK.leastOutdoorK - 1e-6)
    reasons.push({ code: "too-cold-outdoors", text: "Below 55 F outdoors this check says nothing: charge by weight." });
  if (method === "superheat" && targetK < CHARGE_CHECK.leastTargetSuperheatK - 1e-6)
    reasons.push({ code: "target-too-low", text: "A target below 5 F cannot be charged to: charge by weight." });
  const stated = { differenceK, toleranceK, ...CHARGE_CHECK_SOURCES[method] };
  if (reasons.length > 0) return { verdict: "unproven", reasons, ...stated };
  if (Math.abs(differenceK) <= toleranceK + 1e-9)
    return { verdict: "on-target", reasons: [{ code: "on-target", text: `The ${method} is on target.` }], ...stated };
  const short = method === "superheat" ? differenceK > 0 : differenceK < 0;
  const text = short
    ? "Check airflow and filters first; if they are right, the charge is low."
    : "Check airflow and filters first; if they are right, the charge is high.";
  return { verdict: "off-target", reasons: [{ code: short ? "points-to-low" : "points-to-high", text }], ...stated };
}
