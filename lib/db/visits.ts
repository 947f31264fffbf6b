import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { PersonId } from "@/lib/ids";
import { err, ok, type Result } from "@/lib/result";
import { isMovable, isVisitState, mayBecome, type VisitState } from "@/lib/work/visit-state";
import { recordOfficeEvent } from "./office-events";
import type { TenantTx } from "./tenant";
import { lockOrder } from "./work-orders";

export interface VisitPlan {
  window: { from: Date; to: Date } | null;
  plannedStart: Date | null;
  plannedMinutes: number;
  people: readonly string[];
}

export type VisitRefusal =
  | { code: "not-found" | "order-not-open" | "person-not-available" }
  | { code: "changed-meanwhile"; state: VisitState }
  | { code: "not-movable"; state: VisitState }
  | { code: "not-a-step"; from: VisitState; to: VisitState };

/** A new visit on an open work order. */
export async function planVisit(
  tx: TenantTx,
  workOrderId: string,
  plan: VisitPlan,
): Promise<Result<string, VisitRefusal>> {
  const orderState = await lockOrder(tx, workOrderId);
  if (orderState === null) return err({ code: "not-found" });
  if (orderState !== "open") return err({ code: "order-not-open" });
  if (!(await areTechnicians(tx, plan.people))) return err({ code: "person-not-available" });
  const id = uuidv7();
  await tx.visit.create({ data: { id, workOrderId, ...columns(plan) } });
  await setPeople(tx, id, plan.people);
  return ok(id);
}

/** Changes time and people of a visit that has not begun, if nobody changed it since it was read at `version`. */
export async function replanVisit(
  tx: TenantTx,
  id: string,
  version: number,
  plan: VisitPlan,
): Promise<Result<null, VisitRefusal>> {
  const visit = await findState(tx, id);
  if (!visit) return err({ code: "not-found" });
  if (visit.version !== version) return err({ code: "changed-meanwhile", state: visit.state });
  if (!isMovable(visit.state)) return err({ code: "not-movable", state: visit.state });
  if (!(await areTechnicians(tx, plan.people))) return err({ code: "person-not-available" });
  const { count } = await tx.visit.updateMany({
    where: { id, version },
    data: { ...columns(plan), version: { increment: 1 } },
  });
  if (count === 0) return err({ code: "changed-meanwhile", state: visit.state });
  await setPeople(tx, id, plan.people);
  return ok(null);
}

/** Takes a visit one legal step further and notes when and by whom. A step already taken is no error: the same button may be pressed twice without a network. */
export async function moveVisit(
  tx: TenantTx,
  id: string,
  to: VisitState,
  by: PersonId,
  version?: number,
): Promise<Result<VisitState, VisitRefusal>> {
  const visit = await findState(tx, id);
  if (!visit) return err({ code: "not-found" });
  if (visit.state === to) return ok(to);
  if (version !== undefined && visit.version !== version) return err({ code: "changed-meanwhile", state: visit.state });
  if (!mayBecome(visit.state, to)) return err({ code: "not-a-step", from: visit.state, to });
  const { count } = await tx.visit.updateMany({
    where: { id, version: visit.version },
    data: { state: to, version: { increment: 1 } },
  });
  if (count === 0) return err({ code: "changed-meanwhile", state: visit.state });
  await recordOfficeEvent(tx, by, { what: "moved", subject: "visit", subjectId: id, detail: { to } });
  return ok(to);
}

export function isOnVisit(tx: TenantTx, visitId: string, person: PersonId): Promise<boolean> {
  return tx.visitPerson.count({ where: { visitId, personId: person } }).then((count) => count > 0);
}

async function findState(tx: TenantTx, id: string): Promise<{ state: VisitState; version: number } | null> {
  const visit = await tx.visit.findFirst({ where: { id }, select: { state: true, version: true } });
  return visit && isVisitState(visit.state) ? { state: visit.state, version: visit.version } : null;
}

function columns(plan: VisitPlan) {
  return {
    windowFrom: plan.window?.from ?? null,
    windowTo: plan.window?.to ?? null,
    plannedStart: plan.plannedStart,
    plannedMinutes: plan.plannedMinutes,
  };
}

async function setPeople(tx: TenantTx, visitId: string, people: readonly string[]): Promise<void> {
  await tx.visitPerson.deleteMany({ where: { visitId } });
  await tx.visitPerson.createMany({ data: people.map((personId) => ({ visitId, personId })) });
}

async function areTechnicians(tx: TenantTx, people: readonly string[]): Promise<boolean> {
  if (people.length === 0) return true;
  const known = await tx.member.count({
    where: { personId: { in: [...people] }, active: true, roles: { has: "technician" } },
  });
  return known === new Set(people).size;
}
