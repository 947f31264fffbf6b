import "server-only";
import { defaultPlanningRules, type PlanningRules } from "@/lib/work/day/planning-rules";
import type { TenantTx } from "../tenant";

/** The company's own planning rules, or those that hold where it has set none. */
export async function findPlanningRules(tx: TenantTx, ruleSet: "us" | "eu"): Promise<PlanningRules> {
  return (await tx.planningRule.findFirst({ omit: { tenantId: true } })) ?? defaultPlanningRules(ruleSet);
}

export async function setPlanningRules(tx: TenantTx, rules: PlanningRules): Promise<void> {
  const { count } = await tx.planningRule.updateMany({ data: rules });
  if (count === 0) await tx.planningRule.create({ data: rules });
}
