import "server-only";
import { v7 as uuidv7 } from "uuid";
import { err, ok, type Result } from "@/lib/result";
import { mayCancel, mayFinish, type OrderParts, type OrderRefusal } from "@/lib/work/order-state";
import { isVisitState } from "@/lib/work/visit-state";
import { proposeCallback } from "./callbacks";
import { nextNumber } from "./numbers";
import type { TenantTx } from "./tenant";

/** Opens a work order for a new call and marks the call as ordered; null when there is no such call, or it has one. */
export async function openWorkOrder(tx: TenantTx, callId: string): Promise<string | null> {
  const { count } = await tx.serviceCall.updateMany({
    where: { id: callId, state: "new" },
    data: { state: "ordered" },
  });
  if (count === 0) return null;
  const id = uuidv7();
  await tx.workOrder.create({ data: { id, number: await nextNumber(tx, "work_order"), serviceCallId: callId } });
  await proposeCallback(tx, id);
  return id;
}

const call = {
  select: {
    id: true,
    number: true,
    symptom: true,
    urgency: true,
    caller: true,
    customer: { select: { id: true, name: true, phone: true, email: true, mayWrite: true } },
    site: {
      select: { id: true, name: true, street: true, city: true, postalCode: true, timeZone: true, accessNote: true },
    },
    equipment: { select: { id: true, name: true, maker: true, model: true, serial: true } },
  },
} as const;

export function findWorkOrder(tx: TenantTx, id: string) {
  return tx.workOrder.findFirst({
    where: { id },
    include: {
      serviceCall: call,
      visits: {
        include: { people: { include: { person: { select: { name: true } } } } },
        orderBy: { plannedStart: "asc" },
      },
      jobs: {
        include: { circuit: { include: { equipment: { select: { id: true, name: true, applianceKind: true } } } } },
        orderBy: { number: "asc" },
      },
    },
  });
}

export function listWorkOrders(tx: TenantTx, state: "open" | "done" | "cancelled") {
  return tx.workOrder.findMany({
    where: { state },
    include: {
      serviceCall: call,
      visits: {
        select: {
          id: true,
          state: true,
          windowFrom: true,
          windowTo: true,
          plannedStart: true,
          people: { include: { person: { select: { name: true } } } },
        },
        orderBy: { plannedStart: "asc" },
      },
      jobs: { select: { id: true, number: true, state: true, strength: true } },
    },
    orderBy: { openedAt: "desc" },
    take: 200,
  });
}

/** Ends a work order as done, with its call, when its parts allow it. */
export async function finishWorkOrder(
  tx: TenantTx,
  id: string,
): Promise<Result<null, OrderRefusal | { code: "not-found" }>> {
  return endWorkOrder(tx, id, "done", mayFinish);
}

/** Cancels a work order and its coming visits; the call waits for an order again. */
export async function cancelWorkOrder(
  tx: TenantTx,
  id: string,
): Promise<Result<null, OrderRefusal | { code: "not-found" }>> {
  const ended = await endWorkOrder(tx, id, "cancelled", mayCancel);
  if (ended.ok)
    await tx.visit.updateMany({
      where: { workOrderId: id, state: { in: ["planned", "on-the-way"] } },
      data: { state: "cancelled" },
    });
  return ended;
}

async function endWorkOrder(
  tx: TenantTx,
  id: string,
  as: "done" | "cancelled",
  may: (parts: OrderParts) => Result<null, OrderRefusal>,
): Promise<Result<null, OrderRefusal | { code: "not-found" }>> {
  const parts = await readParts(tx, id);
  if (!parts) return err({ code: "not-found" });
  const allowed = may(parts);
  if (!allowed.ok) return allowed;
  const order = await tx.workOrder.updateManyAndReturn({
    where: { id, state: "open" },
    data: { state: as, endedAt: new Date(), version: { increment: 1 } },
    select: { serviceCallId: true },
  });
  if (!order[0]) return err({ code: "not-open" });
  await tx.serviceCall.updateMany({
    where: { id: order[0].serviceCallId },
    data: { state: as === "done" ? "done" : "new" },
  });
  return ok(null);
}

/** Holds the order still until the transaction ends, so that nobody ends it while something is put on it; its state, null when there is none. */
export async function lockOrder(tx: TenantTx, id: string): Promise<string | null> {
  const rows = await tx.$queryRaw<{ state: string }[]>`select state from work_order where id = ${id}::uuid for update`;
  return rows[0]?.state ?? null;
}

/** The order and its jobs, locked: no entry can come in between the question and the answer. */
async function readParts(tx: TenantTx, id: string): Promise<OrderParts | null> {
  if ((await lockOrder(tx, id)) === null) return null;
  await tx.$queryRaw`select id from circuit_job where work_order_id = ${id}::uuid order by id for update`;
  const order = await tx.workOrder.findFirst({
    where: { id },
    select: {
      state: true,
      visits: { select: { state: true } },
      jobs: {
        select: {
          number: true,
          state: true,
          _count: { select: { entries: { where: { kind: { not: "job-opened" } } } } },
        },
      },
    },
  });
  if (!order) return null;
  return {
    state: order.state as OrderParts["state"],
    visits: order.visits.flatMap(({ state }) => (isVisitState(state) ? [{ state }] : [])),
    jobs: order.jobs.map((job) => ({
      number: Number(job.number),
      closed: job.state === "closed",
      hasFieldWork: job._count.entries > 0,
    })),
  };
}
