import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { EquipmentFields } from "@/lib/registry/equipment";
import type { TenantTx } from "./tenant";

export const UNITS_A_PAGE = 50;

/** Units by customer, site and name. */
export function listEquipment(tx: TenantTx, asked: { archived: boolean; page: number }) {
  return tx.equipment.findMany({
    where: { archivedAt: asked.archived ? { not: null } : null },
    orderBy: [{ site: { customer: { name: "asc" } } }, { site: { name: "asc" } }, { name: "asc" }, { id: "asc" }],
    skip: asked.page * UNITS_A_PAGE,
    take: UNITS_A_PAGE + 1,
    include: {
      site: { select: { id: true, name: true, city: true, customer: { select: { id: true, name: true } } } },
      circuits: {
        where: { archivedAt: null },
        orderBy: { name: "asc" },
        select: { id: true, nameplateRefrigerant: true, refrigerantState: true, actualRefrigerant: true },
      },
    },
  });
}

/** A unit with its circuits and where it stands; null also for another company's. */
export function findEquipment(tx: TenantTx, id: string) {
  return tx.equipment.findFirst({
    where: { id },
    include: {
      site: { include: { customer: { select: { id: true, name: true, phone: true } } } },
      circuits: { orderBy: [{ archivedAt: { sort: "asc", nulls: "first" } }, { name: "asc" }] },
    },
  });
}

/** What happened to a unit, newest first: the calls with their work orders, and the jobs on its circuits with how well each was proven. */
export async function listUnitHistory(tx: TenantTx, equipmentId: string) {
  const calls = await tx.serviceCall.findMany({
    where: { equipmentId },
    orderBy: { takenAt: "desc" },
    take: 50,
    select: {
      id: true,
      number: true,
      takenAt: true,
      symptom: true,
      urgency: true,
      state: true,
      workOrders: { orderBy: { number: "asc" }, select: { id: true, number: true, state: true } },
    },
  });
  const jobs = await tx.circuitJob.findMany({
    where: { circuit: { equipmentId } },
    orderBy: { openedAt: "desc" },
    take: 50,
    select: {
      id: true,
      number: true,
      openedAt: true,
      changedAt: true,
      state: true,
      strength: true,
      circuit: { select: { id: true, name: true } },
      workOrder: { select: { id: true, number: true } },
    },
  });
  return { calls, jobs };
}

/** The new unit's id, or null when there is no such site in this company. */
export async function createEquipment(tx: TenantTx, siteId: string, fields: EquipmentFields): Promise<string | null> {
  if (!(await tx.site.findFirst({ where: { id: siteId }, select: { id: true } }))) return null;
  const id = uuidv7();
  await tx.equipment.create({ data: { id, siteId, ...fields } });
  return id;
}

export async function updateEquipment(tx: TenantTx, id: string, fields: EquipmentFields): Promise<boolean> {
  return (await tx.equipment.updateMany({ where: { id }, data: fields })).count === 1;
}

export async function setEquipmentArchived(tx: TenantTx, id: string, archived: boolean): Promise<boolean> {
  const archivedAt = archived ? new Date() : null;
  return (await tx.equipment.updateMany({ where: { id }, data: { archivedAt } })).count === 1;
}
