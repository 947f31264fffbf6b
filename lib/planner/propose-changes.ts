import "server-only";
import { listCallsToPlace, readBoard } from "@/lib/db/board/read-board";
import { readDayProblem } from "@/lib/db/dispatch/day-problem";
import { withTenant } from "@/lib/db/tenant";
import type { DispatchJob, DispatchPlan, DispatchProblem } from "@/lib/dispatch";
import type { CompanyId } from "@/lib/ids";
import { err, ok, type Result } from "@/lib/result";
import { configuredRoadService } from "@/lib/travel/road-service";
import { type Difference, listDifferences, type PlannedPlace } from "@/lib/work/board/differences";
import type { ProposalQuestion } from "@/lib/work/board/plan-command";
import { type DayProblem, inNames, listPlannedVisits } from "@/lib/work/day/day-problem";
import { dayAt } from "@/lib/work/site-time";
import { type DaySearchFailure, searchDay } from "./search-day";

/** A plan beside what stands, as the board shows it; nothing of it is written until a person accepts it. */
export interface Proposal {
  readonly question: ProposalQuestion;
  readonly differences: readonly Difference[];
  /** What stays without a place, and why. */
  readonly open: readonly { readonly id: string; readonly words: string }[];
  /** Every visit of the day with the version that was seen: what changed since makes the proposal old. */
  readonly basis: readonly { readonly id: string; readonly version: number }[];
  readonly notes: readonly string[];
}

export type ProposalFailure = DaySearchFailure | { readonly code: "not-found" };

const PLACE_MS = 300;
/** Urgencies of a call without a work order that planning the rest of a day takes along. */
const PRESSING: readonly string[] = ["danger", "today"];

/** Computes a proposal; the search runs on threads of its own, between two transactions. */
export async function proposeChanges(
  company: { readonly companyId: CompanyId; readonly timeZone: string; readonly ruleSet: "us" | "eu" },
  question: ProposalQuestion,
  now: Date,
): Promise<Result<Proposal, ProposalFailure>> {
  const roadService = configuredRoadService();
  const day = await readDayProblem(company, question.day, {
    ...(dayAt(now, company.timeZone) === question.day && { now }),
    ...(roadService && { roadService }),
    also: async (tx) => (await listCallsToPlace(tx, question)).filter((call) => isAsked(question, call)),
  });
  const problem = problemFor(day.problem, question);
  if (question.want === "place" && !problem.jobs.some(({ id }) => id === question.id))
    return err({ code: "not-found" });
  const found = await search(problem, question);
  if (!found.ok) return found;
  const board = await withTenant(company.companyId, (tx) => readBoard(tx, [question.day], company, now));
  const after = placesOf(day, found.value);
  const openReasons = new Map(
    found.value.unassigned.map(({ job, reason }) => [job.split(" ")[0]!, inNames(reason, day.names)]),
  );
  return ok({
    question,
    differences: listDifferences(board, after, openReasons),
    open: [...openReasons].map(([id, reason]) => ({ id, words: `${day.names.get(id) ?? "A visit"}: ${reason}.` })),
    basis: day.records.visits.filter(({ version }) => version > 0).map(({ id, version }) => ({ id, version })),
    notes: day.notes,
  });
}

function isAsked(question: ProposalQuestion, call: { readonly id: string; readonly urgency: string }): boolean {
  if (question.want === "place") return call.id === question.id;
  return question.want === "rest" && PRESSING.includes(call.urgency);
}

const isStanding = ({ promised, lockedTo, lockedStart }: DispatchJob) =>
  promised !== undefined || (lockedTo !== undefined && lockedStart !== undefined);

/** What may be planned: one more, nothing more, or all of it. A start that need not move is held to the minute. */
function problemFor(problem: DispatchProblem, question: ProposalQuestion): DispatchProblem {
  if (question.want === "rest") return problem;
  const asked = question.want === "place" ? question.id : null;
  return {
    ...problem,
    jobs: problem.jobs
      .filter((job) => isStanding(job) || job.id === asked)
      .map(({ promised, ...job }) => (promised ? { ...job, promised: { ...promised, tolerance: 0 } } : job)),
  };
}

/** For one visit first with everything else nailed down; only where that fails may others move. */
async function search(
  problem: DispatchProblem,
  question: ProposalQuestion,
): Promise<Result<DispatchPlan, DaySearchFailure>> {
  if (question.want !== "place") return searchDay(problem);
  const nailed = {
    ...problem,
    jobs: problem.jobs.map((job) =>
      job.promised && job.id !== question.id
        ? { ...job, lockedTo: job.promised.technician, lockedStart: job.promised.start }
        : job,
    ),
  };
  const found = await searchDay(nailed, { limitMs: PLACE_MS });
  if (!found.ok) return found;
  const one = onlyOf(found.value, question.id);
  return one ? ok(one) : searchDay(problem);
}

/** A plan that says where one job goes and nothing of the others; nothing where it has no place. */
function onlyOf(plan: DispatchPlan, id: string): DispatchPlan | null {
  const routes = plan.routes.flatMap(({ technician, stops }) => {
    const own = stops.filter((stop) => "job" in stop && stop.job === id);
    return own.length > 0 ? [{ technician, stops: own }] : [];
  });
  return routes.length > 0 ? { ...plan, routes, unassigned: [] } : null;
}

/** Where each visit of the plan goes, on whole minutes; null for one that is left open. */
function placesOf(day: DayProblem, plan: DispatchPlan): ReadonlyMap<string, PlannedPlace | null> {
  const places = new Map<string, PlannedPlace | null>(plan.unassigned.map(({ job }) => [job.split(" ")[0]!, null]));
  for (const { visitId, start, people } of listPlannedVisits(day, plan))
    places.set(visitId, { people: [...people].sort(), startMs: Math.ceil(start.getTime() / 60_000) * 60_000 });
  return places;
}
