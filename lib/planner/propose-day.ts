import "server-only";
import { readDayProblem } from "@/lib/db/dispatch/day-problem";
import { type DispatchPlan, describeDifference } from "@/lib/dispatch";
import type { CompanyId } from "@/lib/ids";
import { ok, type Result } from "@/lib/result";
import { configuredRoadService } from "@/lib/travel/road-service";
import {
  type DayProblem,
  inNames,
  listPlannedVisits,
  type PlannedVisit,
  standingPlan,
} from "@/lib/work/day/day-problem";
import { type DaySearchFailure, type DaySearchOptions, searchDay } from "./search-day";

/** A proposal for a day beside what stands; nothing of it is written until a person accepts it. */
export interface DayProposal {
  readonly day: DayProblem;
  readonly plan: DispatchPlan;
  readonly visits: readonly PlannedVisit[];
  /** What differs from what stands, a sentence each. */
  readonly changes: readonly string[];
  readonly open: readonly { readonly visitId: string; readonly reason: string }[];
}

export async function proposeDay(
  company: { readonly companyId: CompanyId; readonly timeZone: string; readonly ruleSet: "us" | "eu" },
  day: string,
  options: DaySearchOptions & { readonly now?: Date } = {},
): Promise<Result<DayProposal, DaySearchFailure>> {
  const { now, ...search } = options;
  const roadService = configuredRoadService();
  const problem = await readDayProblem(company, day, { ...(now && { now }), ...(roadService && { roadService }) });
  const found = await searchDay(problem.problem, search);
  if (!found.ok) return found;
  const plan = found.value;
  return ok({
    day: problem,
    plan,
    visits: listPlannedVisits(problem, plan),
    changes: describeDifference(standingPlan(problem), plan).map((sentence) => inNames(sentence, problem.names)),
    open: plan.unassigned.map(({ job, reason }) => ({ visitId: job, reason: inNames(reason, problem.names) })),
  });
}
