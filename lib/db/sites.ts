import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { SiteFields } from "@/lib/registry/customer";
import type { TenantTx } from "./tenant";

/** A site with its customer and all its units; null also for another company's. */
export function findSite(tx: TenantTx, id: string) {
  return tx.site.findFirst({
    where: { id },
    include: {
      customer: { select: { id: true, name: true, phone: true } },
      equipment: {
        orderBy: [{ archivedAt: { sort: "asc", nulls: "first" } }, { name: "asc" }],
        include: { circuits: { where: { archivedAt: null }, orderBy: { name: "asc" } } },
      },
    },
  });
}

/** The new site's id, or null when there is no such customer in this company. */
export async function createSite(tx: TenantTx, customerId: string, fields: SiteFields): Promise<string | null> {
  if (!(await tx.customer.findFirst({ where: { id: customerId }, select: { id: true } }))) return null;
  const id = uuidv7();
  await tx.site.create({ data: { id, customerId, ...fields } });
  return id;
}

export async function updateSite(tx: TenantTx, id: string, fields: SiteFields): Promise<boolean> {
  return (await tx.site.updateMany({ where: { id }, data: fields })).count === 1;
}

export async function setSiteArchived(tx: TenantTx, id: string, archived: boolean): Promise<boolean> {
  const archivedAt = archived ? new Date() : null;
  return (await tx.site.updateMany({ where: { id }, data: { archivedAt } })).count === 1;
}
