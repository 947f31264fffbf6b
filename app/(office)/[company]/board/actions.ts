"use server";

import { revalidatePath } from "next/cache";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { changePlan } from "@/lib/db/board/change-plan";
import { listChanges } from "@/lib/db/board/last-change";
import { withTenant } from "@/lib/db/tenant";
import { isUuid } from "@/lib/ids";
import { type Proposal, type ProposalFailure, proposeChanges } from "@/lib/planner/propose-changes";
import { err, ok, type Result } from "@/lib/result";
import { type PlanChange, type PlanRefusal, planCommand, proposalQuestion } from "@/lib/work/board/plan-command";
import { whenAt } from "@/lib/work/site-time";

/** Carries out one command of the board; whichever hand gave it, the plan is judged here again. */
export async function commandPlan(company: string, asked: unknown): Promise<Result<PlanChange, PlanRefusal>> {
  const member = await requireMember(company, ...office);
  const command = planCommand.safeParse(asked);
  if (!command.success) return err({ code: "refused", words: "The page and the server differ. Load the page again." });
  const outcome = await allOrNothing(member.companyId, (tx) => changePlan(tx, member, command.data, new Date()));
  if (outcome.ok || outcome.error.code === "changed-meanwhile") revalidatePath(`/${member.slug}`, "layout");
  return outcome;
}

/** A plan to look at: it writes nothing. */
export async function proposePlan(
  company: string,
  asked: unknown,
): Promise<Result<Proposal, ProposalFailure | { readonly code: "malformed-request" }>> {
  const member = await requireMember(company, ...office);
  const question = proposalQuestion.safeParse(asked);
  if (!question.success) return err({ code: "malformed-request" });
  return proposeChanges(member, question.data, new Date());
}

export interface ToldChange {
  readonly id: string;
  readonly words: string;
  /** Given where the change can be asked to be taken back. */
  readonly change: string | null;
}

/** The latest changes of a visit in words, newest first. */
export async function changesOf(company: string, visitId: unknown): Promise<readonly ToldChange[]> {
  const member = await requireMember(company, ...office);
  if (!isUuid(visitId)) return [];
  const changes = await withTenant(member.companyId, (tx) => listChanges(tx, visitId));
  return changes.map(({ id, at, what, person, kept }, n) => ({
    id,
    words: `${whenAt(at, member.timeZone)}: ${person.name}, ${whatWord[what] ?? what}${placeWords(kept?.after, member.timeZone)}`,
    change: n === 0 ? (kept?.change ?? null) : null,
  }));
}

const whatWord: Readonly<Record<string, string>> = {
  placed: "placed",
  "taken-off": "taken off the board",
  lengthened: "changed in length",
  proposed: "placed by an accepted plan",
  undid: "change taken back",
  planned: "planned on the work order",
  replanned: "planned anew on the work order",
};

function placeWords(after: { plannedStart: string | null; plannedMinutes: number } | undefined, timeZone: string) {
  if (!after?.plannedStart) return "";
  return ` (${whenAt(new Date(after.plannedStart), timeZone)}, ${after.plannedMinutes} min)`;
}

/** A refusal inside the transaction undoes what came before it. */
async function allOrNothing<T, E>(
  ...[company, work]: Parameters<typeof withTenant<Result<T, E>>>
): Promise<Result<T, E>> {
  try {
    return await withTenant(company, async (tx) => {
      const outcome = await work(tx);
      if (!outcome.ok) throw new Refused(outcome.error);
      return ok(outcome.value);
    });
  } catch (problem) {
    if (problem instanceof Refused) return err(problem.refusal as E);
    throw problem;
  }
}

class Refused extends Error {
  constructor(readonly refusal: unknown) {
    super("refused");
  }
}
