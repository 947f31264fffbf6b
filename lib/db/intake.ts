import "server-only";
import { isUuid } from "@/lib/ids";
import type { TenantTx } from "./tenant";

/** What the intake form needs about a chosen customer, site and unit; null when nobody is chosen, or not one of this company's. */
export async function findIntake(
  tx: TenantTx,
  chosen: { customerId: string | null; siteId: string | null; equipmentId: string | null },
) {
  if (!isUuid(chosen.customerId)) return null;
  const customer = await tx.customer.findFirst({
    where: { id: chosen.customerId, archivedAt: null },
    select: { id: true, name: true, phone: true },
  });
  if (!customer) return null;
  const sites = await tx.site.findMany({
    where: { customerId: customer.id, archivedAt: null },
    select: {
      id: true,
      name: true,
      street: true,
      city: true,
      timeZone: true,
      equipment: {
        where: { archivedAt: null },
        orderBy: { name: "asc" },
        select: {
          id: true,
          name: true,
          maker: true,
          model: true,
          place: true,
          circuits: {
            where: { archivedAt: null },
            orderBy: { name: "asc" },
            select: { id: true, name: true, actualRefrigerant: true, nameplateRefrigerant: true },
          },
        },
      },
    },
    orderBy: { name: "asc" },
  });
  const site =
    sites.find((each) => each.id === chosen.siteId) ??
    sites.find((each) => each.equipment.some((unit) => unit.id === chosen.equipmentId)) ??
    (sites.length === 1 ? sites[0] : undefined) ??
    null;
  const unit = site?.equipment.find((each) => each.id === chosen.equipmentId) ?? null;
  return { customer, sites, site, unit, technicians: await listTechnicians(tx) };
}

export type Intake = NonNullable<Awaited<ReturnType<typeof findIntake>>>;

/** Who can be sent, with the certificates and tools they hold. */
export function listTechnicians(tx: TenantTx) {
  return tx.member.findMany({
    where: { active: true, roles: { has: "technician" } },
    orderBy: { name: "asc" },
    select: {
      personId: true,
      name: true,
      certificates: { select: { kind: true, expiresOn: true } },
      tools: {
        where: { retiredAt: null },
        orderBy: { name: "asc" },
        select: {
          name: true,
          kind: true,
          calibrationDueOn: true,
          checkDueOn: true,
          doubtedOn: true,
          oilRunHours: true,
        },
      },
    },
  });
}

/** The last calls on a unit with what came of them, newest first. */
export function listLastCalls(tx: TenantTx, equipmentId: string) {
  return tx.serviceCall.findMany({
    where: { equipmentId },
    orderBy: { takenAt: "desc" },
    take: 8,
    select: {
      id: true,
      number: true,
      takenAt: true,
      symptom: true,
      workOrders: {
        select: { id: true, number: true, jobs: { select: { id: true, number: true, state: true, strength: true } } },
      },
    },
  });
}
