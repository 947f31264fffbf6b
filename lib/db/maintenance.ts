import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { PersonId } from "@/lib/ids";
import { timeToCall } from "@/lib/work/periodic-maintenance";
import { dayAt } from "@/lib/work/site-time";
import { fromColumn, toColumn } from "./calendar-date";
import { takeCall } from "./calls";
import { recordOfficeEvent } from "./office-events";
import type { TenantTx } from "./tenant";

export interface NewMaintenancePlan {
  readonly equipmentId: string;
  readonly circuitId: string | null;
  readonly what: string;
  readonly everyMonths: number;
  readonly firstDue: string;
  readonly windowWeeks: number;
}

/** The plan's id, with its event; null when the unit is not there, or the circuit not on it. */
export async function addMaintenancePlan(tx: TenantTx, plan: NewMaintenancePlan, by: PersonId): Promise<string | null> {
  const { equipmentId, circuitId, firstDue, ...rest } = plan;
  if ((await tx.equipment.count({ where: { id: equipmentId, archivedAt: null } })) === 0) return null;
  if (circuitId && (await tx.circuit.count({ where: { id: circuitId, equipmentId } })) === 0) return null;
  const id = uuidv7();
  await tx.maintenancePlan.create({
    data: { id, equipmentId, circuitId, firstDue: toColumn(firstDue)!, madeBy: by, ...rest },
  });
  const detail = { plan: id, what: rest.what };
  await recordOfficeEvent(tx, by, {
    what: "planned-maintenance",
    subject: "equipment",
    subjectId: equipmentId,
    detail,
  });
  return id;
}

/** Ends a plan: no more calls are made of it. False when there is none that runs. */
export async function endMaintenancePlan(tx: TenantTx, id: string, by: PersonId): Promise<boolean> {
  const [ended] = await tx.maintenancePlan.updateManyAndReturn({
    where: { id, endedAt: null },
    data: { endedAt: new Date() },
    select: { equipmentId: true },
  });
  if (!ended) return false;
  const { equipmentId: subjectId } = ended;
  await recordOfficeEvent(tx, by, { what: "ended-maintenance", subject: "equipment", subjectId, detail: { plan: id } });
  return true;
}

/** The plans of a unit that run, the oldest first. */
export function listMaintenancePlans(tx: TenantTx, equipmentId: string) {
  return tx.maintenancePlan.findMany({
    where: { equipmentId, endedAt: null },
    orderBy: { madeAt: "asc" },
    include: { circuit: { select: { name: true } }, lastCall: { select: { id: true, number: true, state: true } } },
  });
}

/**
 * Makes the calls of all plans whose time has come, one open call a plan; how many were made. Done again it makes none:
 * each plan is locked, and counts its times in the transaction that makes the call.
 */
export async function makeMaintenanceCalls(tx: TenantTx, now: Date): Promise<number> {
  await tx.$executeRaw`select 1 from maintenance_plan where ended_at is null order by id for update`;
  const plans = await tx.maintenancePlan.findMany({
    where: { endedAt: null, equipment: { archivedAt: null, site: { archivedAt: null } } },
    include: {
      circuit: { select: { name: true } },
      lastCall: { select: { state: true } },
      equipment: { select: { site: { select: { id: true, customerId: true, timeZone: true } } } },
    },
  });
  let made = 0;
  for (const plan of plans) {
    if (plan.lastCall && ["new", "ordered"].includes(plan.lastCall.state)) continue;
    const { site } = plan.equipment;
    const time = timeToCall({ ...plan, firstDue: fromColumn(plan.firstDue)! }, dayAt(now, site.timeZone));
    if (time === null) continue;
    const call = {
      customerId: site.customerId,
      siteId: site.id,
      equipmentId: plan.equipmentId,
      caller: "",
      symptom: plan.circuit ? `${plan.what} (${plan.circuit.name})` : plan.what,
      urgency: "planned",
      origin: "maintenance",
      dueFrom: toColumn(time.dueFrom)!,
      dueBy: toColumn(time.dueBy)!,
    } as const;
    const lastCallId = await takeCall(tx, call, plan.madeBy as PersonId);
    if (lastCallId === null) continue;
    await tx.maintenancePlan.updateMany({
      where: { id: plan.id },
      data: { lastCallId, timesCalled: time.timesCalled },
    });
    made += 1;
  }
  return made;
}
