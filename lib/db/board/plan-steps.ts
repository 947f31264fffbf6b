import "server-only";
import * as z from "zod";
import type { PersonId } from "@/lib/ids";
import { err, ok, type Result } from "@/lib/result";
import { hasEnded, isVisitState } from "@/lib/work/visit-state";
import { recordOfficeEvent } from "../office-events";
import type { TenantTx } from "../tenant";

/** Where and how long a visit is planned; kept with each change, so that it can be taken back. */
export interface VisitPlace {
  readonly plannedStart: string | null;
  readonly plannedMinutes: number;
  readonly people: readonly string[];
}

export interface PlanStep {
  readonly visitId: string;
  /** The version that was seen. */
  readonly version: number;
  readonly change: Partial<VisitPlace>;
}

export type StepRefusal =
  | { readonly code: "not-found" }
  | { readonly code: "changed-meanwhile" | "begun"; readonly visitId: string };

/** One plan at a time changes a company's board; the forms and tablets beside it are caught by the versions. */
export async function lockPlan(tx: TenantTx): Promise<void> {
  await tx.$executeRaw`select pg_advisory_xact_lock(hashtextextended('plan ' || app_tenant()::text, 0))`;
}

/** Takes all steps or none (the transaction must be thrown away on a refusal), each with its event under one change. */
export async function takeSteps(
  tx: TenantTx,
  by: PersonId,
  what: string,
  change: string,
  steps: readonly PlanStep[],
): Promise<Result<null, StepRefusal>> {
  for (const step of [...steps].sort((a, b) => (a.visitId < b.visitId ? -1 : 1))) {
    const found = await findPlace(tx, step.visitId);
    if (found === null) return err({ code: "not-found" });
    if (found.version !== step.version) return err({ code: "changed-meanwhile", visitId: step.visitId });
    const { version, state, ...before } = found;
    const after: VisitPlace = { ...before, ...step.change };
    const onlyLonger = after.plannedStart === before.plannedStart && after.people.join() === before.people.join();
    if (onlyLonger ? hasEndedState(state) : state !== "planned") return err({ code: "begun", visitId: step.visitId });
    const { count } = await tx.visit.updateMany({
      where: { id: step.visitId, version },
      data: {
        plannedStart: after.plannedStart,
        plannedMinutes: after.plannedMinutes,
        version: { increment: 1 },
      },
    });
    if (count === 0) return err({ code: "changed-meanwhile", visitId: step.visitId });
    if (step.change.people !== undefined) {
      await tx.visitPerson.deleteMany({ where: { visitId: step.visitId } });
      await tx.visitPerson.createMany({
        data: after.people.map((personId) => ({ visitId: step.visitId, personId })),
      });
    }
    const detail = { change, before: asJson(before), after: asJson(after), version: version + 1 };
    await recordOfficeEvent(tx, by, { what, subject: "visit", subjectId: step.visitId, detail });
  }
  return ok(null);
}

export async function findPlace(
  tx: TenantTx,
  visitId: string,
): Promise<(VisitPlace & { readonly version: number; readonly state: string }) | null> {
  const visit = await tx.visit.findFirst({
    where: { id: visitId },
    select: { state: true, version: true, plannedStart: true, plannedMinutes: true, people: true },
  });
  if (visit === null) return null;
  return {
    state: visit.state,
    version: visit.version,
    plannedStart: visit.plannedStart?.toISOString() ?? null,
    plannedMinutes: visit.plannedMinutes,
    people: visit.people.map(({ personId }) => personId).sort(),
  };
}

const hasEndedState = (state: string) => isVisitState(state) && hasEnded(state);

const asJson = ({ people, ...rest }: VisitPlace) => ({ ...rest, people: [...people] });

const placeShape = z.object({
  plannedStart: z.string().nullable(),
  plannedMinutes: z.number(),
  people: z.array(z.string()),
});

/** What an event of a change keeps: of a visit its place before and after, of a call ordered by it the order, of an absence its time. */
export const changeDetail = z.object({
  change: z.string(),
  before: placeShape.optional(),
  after: placeShape.optional(),
  version: z.number().optional(),
  orderId: z.string().optional(),
  timeId: z.string().optional(),
  undoes: z.string().optional(),
});
