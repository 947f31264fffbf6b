import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { PersonId } from "@/lib/ids";
import { nextNumber } from "./numbers";
import type { TenantTx } from "./tenant";

export interface NewCall {
  customerId: string;
  siteId: string;
  equipmentId: string | null;
  caller: string;
  symptom: string;
  urgency: "danger" | "today" | "soon" | "planned";
  /** Where nobody rang: why the call was made. */
  origin?: "maintenance" | "duty" | "return";
  dueFrom?: Date;
  /** The last day. */
  dueBy?: Date;
  partAwaited?: string;
}

const where = {
  customer: { select: { id: true, name: true, phone: true } },
  site: { select: { id: true, name: true, street: true, city: true, timeZone: true } },
  equipment: { select: { id: true, name: true } },
} as const;

/** The call's id, once its customer, site and unit are found to belong together in this company; null when they do not. */
export async function takeCall(tx: TenantTx, call: NewCall, by: PersonId): Promise<string | null> {
  const site = await tx.site.findFirst({
    where: { id: call.siteId, customerId: call.customerId },
    select: { id: true },
  });
  if (!site) return null;
  if (call.equipmentId !== null) {
    const unit = await tx.equipment.findFirst({
      where: { id: call.equipmentId, siteId: call.siteId },
      select: { id: true },
    });
    if (!unit) return null;
  }
  const id = uuidv7();
  await tx.serviceCall.create({ data: { id, number: await nextNumber(tx, "service_call"), ...call, takenBy: by } });
  return id;
}

/** Calls without a work order first by urgency, then the latest others. */
export async function listCalls(tx: TenantTx, state: "new" | "ordered" | "done" | "cancelled" | "all") {
  const calls = await tx.serviceCall.findMany({
    where: state === "all" ? {} : { state },
    include: { ...where, workOrders: { select: { id: true, number: true } } },
    orderBy: { takenAt: "desc" },
    take: 200,
  });
  return calls.sort((a, b) => urgencyRank(a.urgency) - urgencyRank(b.urgency));
}

export function findCall(tx: TenantTx, id: string) {
  return tx.serviceCall.findFirst({
    where: { id },
    include: {
      ...where,
      taker: { select: { name: true } },
      workOrders: { select: { id: true, number: true, state: true } },
    },
  });
}

/** A call without a place for the visit at which an awaited part is fitted; null when there is no such work order. */
export async function callForPart(tx: TenantTx, orderId: string, part: string, by: PersonId): Promise<string | null> {
  const order = await tx.workOrder.findFirst({
    where: { id: orderId },
    select: { number: true, serviceCall: { select: { customerId: true, siteId: true, equipmentId: true } } },
  });
  if (!order) return null;
  const symptom = `Return visit of work order ${order.number}: fit ${part}`;
  const call = {
    ...order.serviceCall,
    caller: "",
    symptom,
    urgency: "soon",
    origin: "return",
    partAwaited: part,
  } as const;
  return takeCall(tx, call, by);
}

/** The awaited part has come: the call can be planned. False when there is no such call, or nothing is awaited. */
export async function noteArrivedPart(tx: TenantTx, callId: string): Promise<boolean> {
  const { count } = await tx.serviceCall.updateMany({
    where: { id: callId, partAwaited: { not: "" }, partCameAt: null },
    data: { partCameAt: new Date() },
  });
  return count === 1;
}

/** Cancels a call nobody has ordered work for; false when there is no such call, or it is past that. */
export async function cancelCall(tx: TenantTx, id: string): Promise<boolean> {
  const { count } = await tx.serviceCall.updateMany({ where: { id, state: "new" }, data: { state: "cancelled" } });
  return count === 1;
}

/** Danger to people first. */
export function urgencyRank(urgency: string): number {
  return ["danger", "today", "soon", "planned"].indexOf(urgency);
}
