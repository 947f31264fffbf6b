import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { CustomerFields } from "@/lib/registry/customer";
import type { TenantTx } from "./tenant";

export const CUSTOMERS_A_PAGE = 50;

/** Customers by name, with how many sites each has; `after` pages on from a name and id. */
export function listCustomers(tx: TenantTx, asked: { archived: boolean; page: number }) {
  return tx.customer.findMany({
    where: { archivedAt: asked.archived ? { not: null } : null },
    orderBy: [{ name: "asc" }, { id: "asc" }],
    skip: asked.page * CUSTOMERS_A_PAGE,
    take: CUSTOMERS_A_PAGE + 1, // one more tells that there is a next page
    include: {
      sites: { where: { archivedAt: null }, orderBy: { name: "asc" }, take: 1, select: { city: true, street: true } },
      _count: { select: { sites: { where: { archivedAt: null } } } },
    },
  });
}

/** A customer with its sites and their units; null also for another company's. */
export function findCustomer(tx: TenantTx, id: string) {
  return tx.customer.findFirst({
    where: { id },
    include: {
      sites: {
        orderBy: { name: "asc" },
        include: {
          equipment: {
            where: { archivedAt: null },
            orderBy: { name: "asc" },
            select: { id: true, name: true, maker: true, model: true, serial: true },
          },
        },
      },
    },
  });
}

/** The customer's latest calls with what came of them. */
export function listCustomerCalls(tx: TenantTx, customerId: string) {
  return tx.serviceCall.findMany({
    where: { customerId },
    orderBy: { takenAt: "desc" },
    take: 20,
    select: {
      id: true,
      number: true,
      takenAt: true,
      symptom: true,
      state: true,
      site: { select: { name: true, timeZone: true } },
      equipment: { select: { id: true, name: true } },
    },
  });
}

export async function createCustomer(tx: TenantTx, fields: CustomerFields): Promise<string> {
  const id = uuidv7();
  await tx.customer.create({ data: { id, ...fields } });
  return id;
}

/** False when there is no such customer in this company. */
export async function updateCustomer(tx: TenantTx, id: string, fields: CustomerFields): Promise<boolean> {
  return (await tx.customer.updateMany({ where: { id }, data: fields })).count === 1;
}

/** Archives or brings back; its sites and units stay as they are. False when there is no such customer. */
export async function setCustomerArchived(tx: TenantTx, id: string, archived: boolean): Promise<boolean> {
  const archivedAt = archived ? new Date() : null;
  return (await tx.customer.updateMany({ where: { id }, data: { archivedAt } })).count === 1;
}

/** A customer on the books with the same name, however written, or the same telephone, whatever stands between its digits. */
export async function findLikeCustomer(
  tx: TenantTx,
  { name, phone }: { readonly name: string; readonly phone: string },
): Promise<{ readonly id: string; readonly name: string; readonly phone: string } | null> {
  const digits = phone.replace(/\D/g, "");
  const [found] = await tx.$queryRaw<{ id: string; name: string; phone: string }[]>`
    select id, name, phone from customer
    where archived_at is null and (regexp_replace(lower(name), '[^[:alnum:]]+', '', 'g') = regexp_replace(lower(${name}), '[^[:alnum:]]+', '', 'g')
      or (length(${digits}) >= 6 and regexp_replace(phone, '[^0-9]', '', 'g') = ${digits}))
    order by name limit 1`;
  return found ?? null;
}
