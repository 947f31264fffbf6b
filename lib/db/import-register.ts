import "server-only";
import { v7 as uuidv7 } from "uuid";
import { type ImportPlan, keyOf, type Planned, type Register } from "@/lib/registry/import/plan-import";
import type { TenantTx } from "./tenant";

/** What an import is compared with: everything in use, as narrow as the comparison needs. */
export async function readRegister(tx: TenantTx): Promise<Register> {
  const inUse = { archivedAt: null };
  return {
    customers: await tx.customer.findMany({
      where: inUse,
      select: { id: true, name: true, phone: true, email: true },
    }),
    sites: await tx.site.findMany({
      where: inUse,
      select: { id: true, customerId: true, name: true, street: true },
    }),
    units: await tx.equipment.findMany({
      where: inUse,
      select: { id: true, siteId: true, name: true, serial: true },
    }),
  };
}

/** Two imports into one company wait for each other, so that neither creates what the other just did. */
export async function lockImports(tx: TenantTx): Promise<void> {
  await tx.$executeRaw`select pg_advisory_xact_lock(hashtextextended('import:' || app_tenant(), 0))`;
}

/** Creates what the plan says, everything in the caller's transaction; what was matched is left alone. */
export async function carryOutImport(tx: TenantTx, plan: ImportPlan): Promise<void> {
  const ids = new Map<string, string>();
  const isNew = (planned: Planned): boolean => {
    if ("matched" in planned || ids.has(keyOf(planned))) return false;
    ids.set(keyOf(planned), uuidv7());
    return true;
  };
  const idOf = (planned: Planned) => ("matched" in planned ? planned.matched : ids.get(keyOf(planned))!);

  const customers = plan.rows.flatMap(({ row, customer }) =>
    isNew(customer) ? [{ id: idOf(customer), ...row.customer }] : [],
  );
  const sites = plan.rows.flatMap(({ row, customer, site }) =>
    row.site && site && isNew(site) ? [{ id: idOf(site), customerId: idOf(customer), ...row.site }] : [],
  );
  const equipment: { id: string; siteId: string; name: string }[] = [];
  const circuits: { id: string; equipmentId: string; nameplateRefrigerant: string | null }[] = [];
  for (const { row, site, unit } of plan.rows) {
    if (!row.unit || !site || !unit || !isNew(unit)) continue;
    const { nameplate, ...fields } = row.unit;
    equipment.push({ id: idOf(unit), siteId: idOf(site), ...fields });
    circuits.push({ id: uuidv7(), equipmentId: idOf(unit), ...nameplate }); // what is in it now nobody has looked at yet
  }
  // One statement a table: the client's own bulk insert is many times slower.
  await tx.$executeRaw`
    insert into customer (id, name, phone, email, note)
    select id, name, phone, email, note from jsonb_to_recordset(${JSON.stringify(customers)}::jsonb)
      as r(id uuid, name text, phone text, email text, note text)`;
  await tx.$executeRaw`
    insert into site (id, customer_id, name, street, city, postal_code, region, country, time_zone, latitude, longitude, access_note)
    select id, "customerId", name, street, city, "postalCode", region, country, "timeZone", latitude, longitude, "accessNote"
    from jsonb_to_recordset(${JSON.stringify(sites)}::jsonb)
      as r(id uuid, "customerId" uuid, name text, street text, city text, "postalCode" text, region text, country text,
           "timeZone" text, latitude float8, longitude float8, "accessNote" text)`;
  await tx.$executeRaw`
    insert into equipment (id, site_id, name, maker, model, serial, year_made, place, appliance_kind)
    select id, "siteId", name, maker, model, serial, "yearMade", place, "applianceKind"
    from jsonb_to_recordset(${JSON.stringify(equipment)}::jsonb)
      as r(id uuid, "siteId" uuid, name text, maker text, model text, serial text, "yearMade" int, place text, "applianceKind" text)`;
  await tx.$executeRaw`
    insert into circuit (id, equipment_id, nameplate_refrigerant, factory_charge_kg)
    select id, "equipmentId", "nameplateRefrigerant", "factoryChargeKg"
    from jsonb_to_recordset(${JSON.stringify(circuits)}::jsonb)
      as r(id uuid, "equipmentId" uuid, "nameplateRefrigerant" text, "factoryChargeKg" float8)`;
}

/** Every customer in use, with its sites and their units, a line for each deepest thing: what an export writes. */
export async function listForExport(tx: TenantTx) {
  return tx.customer.findMany({
    where: { archivedAt: null },
    orderBy: { name: "asc" },
    include: {
      sites: {
        where: { archivedAt: null },
        orderBy: { name: "asc" },
        include: {
          equipment: {
            where: { archivedAt: null },
            orderBy: { name: "asc" },
            include: { circuits: { where: { archivedAt: null }, orderBy: { name: "asc" }, take: 1 } },
          },
        },
      },
    },
  });
}
