import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Role } from "@/lib/auth/roles";
import { addCertificate, removeCertificate } from "@/lib/db/certificates";
import { createCircuit, findCircuit, setCircuitArchived, updateCircuit } from "@/lib/db/circuits";
import { prismaClient } from "@/lib/db/client";
import { findCompany, updateCompany } from "@/lib/db/company";
import { createCustomer, findCustomer, listCustomers, setCustomerArchived, updateCustomer } from "@/lib/db/customers";
import { createCylinder, findCylinder, setCylinderRetired, updateCylinder } from "@/lib/db/cylinders";
import {
  createEquipment,
  findEquipment,
  listEquipment,
  listUnitHistory,
  setEquipmentArchived,
  updateEquipment,
} from "@/lib/db/equipment";
import { carryOutImport, listForExport, readRegister } from "@/lib/db/import-register";
import { findMemberOf, listMembers, updateMember } from "@/lib/db/members";
import { listOfficeEvents, recordOfficeEvent } from "@/lib/db/office-events";
import { searchRegister } from "@/lib/db/search";
import { createSite, findSite, setSiteArchived, updateSite } from "@/lib/db/sites";
import { BULK_TIMEOUT_MS, type TenantTx, withTenant } from "@/lib/db/tenant";
import { createTool, findTool, listTools, setToolRetired, updateTool } from "@/lib/db/tools";
import { CompanyId, PersonId } from "@/lib/ids";
import type { CircuitFields } from "@/lib/registry/circuit";
import type { CustomerFields, SiteFields } from "@/lib/registry/customer";
import type { CylinderFields } from "@/lib/registry/cylinder";
import type { EquipmentFields } from "@/lib/registry/equipment";
import { previewImport } from "@/lib/registry/import/preview";
import { type ToolFields, toolForm } from "@/lib/registry/tool";
import { shownOf } from "@/lib/registry/tool-shown";
import { type FreshDatabase, freshDatabase, withConnection } from "./fresh-database";

const customer: CustomerFields = {
  name: "Elm Street Bakery",
  phone: "(303) 555-0142",
  email: "ovens@elm.example",
  mayWrite: false,
  note: "",
};
const site: SiteFields = {
  name: "Shop",
  street: "12 Elm Street",
  city: "Fort Hale",
  postalCode: "80100",
  region: "",
  country: "",
  timeZone: "America/Denver",
  latitude: 39.5,
  longitude: -104.9,
  accessNote: "",
};
const unit: EquipmentFields = {
  name: "Walk-in cooler",
  maker: "Northfold",
  model: "NF-36",
  serial: "NF36-00871",
  yearMade: 2019,
  place: "cellar",
  applianceKind: "commercial_refrigeration",
};
const circuit: CircuitFields = {
  name: "Circuit 1",
  nameplateRefrigerant: "R-404A",
  refrigerantState: "retrofitted",
  actualRefrigerant: "R-449A",
  factoryChargeKg: 3.2,
  factoryLineLengthM: 5,
  lineLengthM: 12,
  liquidLineOdMm: 9.525,
  suctionLineOdMm: 22.225,
  internalVolumeL: null,
  internalVolumeBasis: "unknown",
  lowSideDesignKpaGauge: 1000,
  highSideDesignKpaGauge: 2800,
};
const tool: ToolFields = toolForm.parse({
  kind: "vacuum-gauge",
  name: "Gauge 4",
  serial: "VG-4",
  heldBy: "",
  calibratedOn: "2026-01-10",
  calibrationDueOn: "2027-01-10",
});
const cylinder: CylinderFields = {
  label: "C-17",
  contents: "recovered",
  refrigerant: "R-404A",
  waterCapacityKg: 21.6,
  tareKg: 12.7,
  contentsKg: 4,
  requalifyBy: "2028-04-30",
  forFlammables: false,
  refillable: true,
  heldBy: null,
};

let database: FreshDatabase;
const a = CompanyId.parse(uuidv7());
const b = CompanyId.parse(uuidv7());
const [annOfA, abeOfA, benOfB] = [uuidv7(), uuidv7(), uuidv7()].map((id) => PersonId.parse(id)) as [
  PersonId,
  PersonId,
  PersonId,
];
const inA = <T>(work: (tx: TenantTx) => Promise<T>, timeoutMs?: number) => withTenant(a, work, timeoutMs);
const inB = <T>(work: (tx: TenantTx) => Promise<T>) => withTenant(b, work);

async function plantCompany(
  id: CompanyId,
  slug: string,
  people: readonly { id: PersonId; name: string; roles: Role[] }[],
) {
  await withConnection(database.adminUrl, async (admin) => {
    await admin.query("insert into gate.company (id, slug) values ($1, $2)", [id, slug]);
    await admin.query("insert into company (tenant_id, name, time_zone) values ($1, $2, 'America/Denver')", [id, slug]);
    for (const { id: person, name, roles } of people) {
      const email = `${name.toLowerCase()}@${slug}.example`;
      await admin.query("insert into gate.person (id, email, name, password_hash) values ($1, $2, $3, 'x')", [
        person,
        email,
        name,
      ]);
      await admin.query("insert into member (tenant_id, person_id, name, email, roles) values ($1, $2, $3, $4, $5)", [
        id,
        person,
        name,
        email,
        roles,
      ]);
    }
  });
}

/** One of each thing in company A. */
async function plantRegister() {
  return inA(async (tx) => {
    const customerId = await createCustomer(tx, customer);
    const siteId = (await createSite(tx, customerId, site))!;
    const equipmentId = (await createEquipment(tx, siteId, unit))!;
    const circuitId = (await createCircuit(tx, equipmentId, circuit))!;
    const newTool = await createTool(tx, { ...tool, heldBy: annOfA });
    const newCylinder = await createCylinder(tx, cylinder);
    const certificateId = (await addCertificate(tx, annOfA, {
      kind: "eu-a1",
      number: "A1-9",
      issuedOn: "2024-02-29",
      expiresOn: "2031-02-28",
    }))!;
    await recordOfficeEvent(tx, annOfA, { what: "created", subject: "customer", subjectId: customerId });
    if (!newTool.ok || !newCylinder.ok) throw new Error("not planted");
    return {
      customerId,
      siteId,
      equipmentId,
      circuitId,
      toolId: newTool.value,
      cylinderId: newCylinder.value,
      certificateId,
    };
  });
}

let ids: Awaited<ReturnType<typeof plantRegister>>;

beforeAll(async () => {
  database = await freshDatabase();
  process.env.DATABASE_URL = database.databaseUrl;
  process.env.NEXTAUTH_SECRET ??= "only for tests, but long enough for the check";
  process.env.NEXTAUTH_URL ??= "http://localhost:3000";
  await plantCompany(a, "alder", [
    { id: annOfA, name: "Ann", roles: ["owner", "technician"] },
    { id: abeOfA, name: "Abe", roles: ["supervisor"] },
  ]);
  await plantCompany(b, "birch", [{ id: benOfB, name: "Ben", roles: ["owner"] }]);
  ids = await plantRegister();
});

afterAll(async () => {
  await prismaClient().$disconnect();
  await database.drop();
});

describe("what company A keeps", () => {
  test("comes back as it was written", async () => {
    await inA(async (tx) => {
      expect(await findCustomer(tx, ids.customerId)).toMatchObject(customer);
      expect(await findSite(tx, ids.siteId)).toMatchObject(site);
      expect(await findEquipment(tx, ids.equipmentId)).toMatchObject(unit);
      expect(await findCircuit(tx, ids.circuitId)).toMatchObject(circuit);
      expect(await findTool(tx, ids.toolId)).toMatchObject({ ...tool, heldBy: annOfA });
      expect(await findCylinder(tx, ids.cylinderId)).toMatchObject(cylinder);
      expect((await findMemberOf(tx, annOfA))?.certificates).toMatchObject([
        { kind: "eu-a1", expiresOn: new Date("2031-02-28T00:00:00Z") },
      ]);
      expect(await listOfficeEvents(tx, ids.customerId)).toMatchObject([{ what: "created", person: { name: "Ann" } }]);
      expect(await listUnitHistory(tx, ids.equipmentId)).toEqual({ calls: [], jobs: [] });
    });
  });

  test("is changed by its own people, and archived without being lost", async () => {
    await inA(async (tx) => {
      const other = await createCustomer(tx, { ...customer, name: "Archive me" });
      expect(await updateCustomer(tx, other, { ...customer, name: "Archived" })).toBe(true);
      expect(await setCustomerArchived(tx, other, true)).toBe(true);
      const inUse = await listCustomers(tx, { archived: false, page: 0 });
      expect(inUse.map(({ name }) => name)).toEqual(["Elm Street Bakery"]);
      const put = await listCustomers(tx, { archived: true, page: 0 });
      expect(put.map(({ name }) => name)).toEqual(["Archived"]);
      expect((await listEquipment(tx, { archived: false, page: 0 })).map(({ serial }) => serial)).toEqual([
        unit.serial,
      ]);
    });
  });
});

describe("to company B, a thing of company A", () => {
  test("looks like nothing when read", async () => {
    await inB(async (tx) => {
      expect(await findCustomer(tx, ids.customerId)).toBeNull();
      expect(await findSite(tx, ids.siteId)).toBeNull();
      expect(await findEquipment(tx, ids.equipmentId)).toBeNull();
      expect(await findCircuit(tx, ids.circuitId)).toBeNull();
      expect(await findTool(tx, ids.toolId)).toBeNull();
      expect(await findCylinder(tx, ids.cylinderId)).toBeNull();
      expect(await findMemberOf(tx, annOfA)).toBeNull();
      expect(await listOfficeEvents(tx, ids.customerId)).toEqual([]);
      expect((await listMembers(tx)).map(({ name }) => name)).toEqual(["Ben"]);
      expect(await listTools(tx, { retired: false })).toEqual([]);
      expect(await listForExport(tx)).toEqual([]);
      expect(await searchRegister(tx, "elm", { kinds: ["customer", "site", "equipment"], limit: 20 })).toEqual([]);
      expect((await findCompany(tx)).name).toBe("birch");
    });
  });

  test("cannot be changed, archived or struck off", async () => {
    await inB(async (tx) => {
      expect(await updateCustomer(tx, ids.customerId, { ...customer, name: "B" })).toBe(false);
      expect(await setCustomerArchived(tx, ids.customerId, true)).toBe(false);
      expect(await updateSite(tx, ids.siteId, { ...site, name: "B" })).toBe(false);
      expect(await setSiteArchived(tx, ids.siteId, true)).toBe(false);
      expect(await updateEquipment(tx, ids.equipmentId, { ...unit, name: "B" })).toBe(false);
      expect(await setEquipmentArchived(tx, ids.equipmentId, true)).toBe(false);
      expect(await updateCircuit(tx, ids.circuitId, { ...circuit, name: "B" })).toBe(false);
      expect(await setCircuitArchived(tx, ids.circuitId, true)).toBe(false);
      expect(await updateTool(tx, ids.toolId, tool, shownOf(tool))).toEqual({
        ok: false,
        error: { code: "not-found" },
      });
      expect(await setToolRetired(tx, ids.toolId, true)).toBe(false);
      expect(await updateCylinder(tx, ids.cylinderId, cylinder)).toEqual({ ok: false, error: { code: "not-found" } });
      expect(await setCylinderRetired(tx, ids.cylinderId, true)).toBe(false);
      expect(await removeCertificate(tx, annOfA, ids.certificateId)).toBeNull();
      const asOwner = { name: "x", phone: "", roles: ["owner" as const], active: false };
      expect(await updateMember(tx, annOfA, asOwner, ["owner"])).toEqual({ ok: false, error: { code: "not-found" } });
      await updateCompany(tx, { name: "birch two", timeZone: "UTC", ruleSet: "eu", callbackWindowDays: 60 });
    });
    await inA(async (tx) => {
      expect(await findCustomer(tx, ids.customerId)).toMatchObject({ ...customer, archivedAt: null });
      expect(await findTool(tx, ids.toolId)).toMatchObject({ retiredAt: null });
      expect((await findMemberOf(tx, annOfA))?.certificates).toHaveLength(1);
      expect((await findCompany(tx)).name).toBe("alder");
    });
  });

  test("cannot be pointed at, exactly as if it were not there", async () => {
    const nowhere = uuidv7();
    await inB(async (tx) => {
      for (const id of [ids.customerId, nowhere]) expect(await createSite(tx, id, site)).toBeNull();
      for (const id of [ids.siteId, nowhere]) expect(await createEquipment(tx, id, unit)).toBeNull();
      for (const id of [ids.equipmentId, nowhere]) expect(await createCircuit(tx, id, circuit)).toBeNull();
      for (const heldBy of [annOfA, PersonId.parse(nowhere)]) {
        const refused = { ok: false, error: { code: "no-such-holder" } };
        expect(await createTool(tx, { ...tool, heldBy })).toEqual(refused);
        expect(await createCylinder(tx, { ...cylinder, heldBy })).toEqual(refused);
        const certificate = { kind: "us-universal" as const, number: "", issuedOn: null, expiresOn: null };
        expect(await addCertificate(tx, heldBy, certificate)).toBeNull();
      }
    });
  });

  const pointers = [
    ["site", () => ({ customer_id: ids.customerId, name: "x", time_zone: "UTC" })],
    ["equipment", () => ({ site_id: ids.siteId, name: "x" })],
    ["circuit", () => ({ equipment_id: ids.equipmentId })],
    ["certificate", () => ({ person_id: annOfA, kind: "us-universal" })],
    ["tool", () => ({ kind: "pump", name: "x", held_by: annOfA })],
    ["cylinder", () => ({ label: "x", contents: "empty", water_capacity_kg: 1, tare_kg: 1, held_by: annOfA })],
    ["office_event", () => ({ person_id: annOfA, what: "x", subject: "x", subject_id: ids.customerId })],
  ] as const;

  test.each(pointers)("is out of reach for a %s even past our own checks", async (table, columns) => {
    const row: Record<string, unknown> = { id: uuidv7(), ...columns() };
    const insert = (given: Record<string, unknown>) =>
      inB((tx) => {
        const names = Object.keys(given);
        const places = names.map((name, at) => (/_id$|^id$|held_by/.test(name) ? `$${at + 1}::uuid` : `$${at + 1}`));
        return tx.$executeRawUnsafe(
          `insert into ${table} (${names.join(", ")}) values (${places.join(", ")})`,
          ...Object.values(given),
        );
      });
    await expect(insert(row)).rejects.toThrow(/foreign key/i);
    await expect(insert({ tenant_id: a, ...row })).rejects.toThrow(/row-level security/i);
  });

  test.each(["customer", "site", "equipment", "circuit", "tool", "cylinder", "member", "certificate", "company"])(
    "in table %s is not touched by an update without a condition",
    async (table) => {
      const count = (tx: TenantTx) => tx.$queryRawUnsafe<{ n: bigint }[]>(`select count(*) as n from ${table}`);
      const [held] = await inA(count);
      const touched = await inB(async (tx) => {
        await tx.$executeRawUnsafe(`update ${table} set tenant_id = tenant_id`);
        const [seen] = await count(tx);
        return seen!.n;
      });
      expect(held!.n).toBeGreaterThan(0n);
      expect(touched).toBe(table === "member" || table === "company" ? 1n : 0n);
    },
  );
});

describe("a transaction", () => {
  test("that throws leaves nothing, also not its event", async () => {
    const id = uuidv7();
    const failing = inA(async (tx) => {
      await createCustomer(tx, { ...customer, name: "Never" });
      await recordOfficeEvent(tx, annOfA, { what: "created", subject: "customer", subjectId: id });
      throw new Error("on purpose");
    });
    await expect(failing).rejects.toThrow("on purpose");
    await inA(async (tx) => {
      expect(await searchRegister(tx, "never", { kinds: ["customer"], limit: 5 })).toEqual([]);
      expect(await listOfficeEvents(tx, id)).toEqual([]);
    });
  });
});

describe("search as you type", () => {
  const find = async (query: string) =>
    (await inA((tx) => searchRegister(tx, query, { kinds: ["customer", "site", "equipment"], limit: 20 }))).map(
      ({ kind, label }) => `${kind} ${label}`,
    );

  test("finds by name, phone however written, address, serial and maker", async () => {
    expect(await find("bakery")).toContain("customer Elm Street Bakery");
    expect(await find("303 555 01")).toEqual(["customer Elm Street Bakery"]);
    expect(await find("3035550142")).toEqual(["customer Elm Street Bakery"]);
    expect(await find("12 elm")).toEqual(["site Shop"]);
    expect(await find("nf36-008")).toEqual(["equipment Walk-in cooler"]);
    expect(await find("northfold bakery")).toEqual(["equipment Walk-in cooler"]);
  });

  test("takes the signs of a pattern as letters, and nothing for an empty query", async () => {
    for (const query of ["%", "_", "\\", "'; drop table customer; --", "", "   "])
      expect(await find(query)).toEqual([]);
  });
});

describe("the last owner", () => {
  const ann = { name: "Ann", phone: "", active: true };

  test("can neither be struck out nor leave", async () => {
    const noOwner = { ...ann, roles: ["technician" as const] };
    const away = { ...ann, roles: ["owner" as const], active: false };
    for (const change of [noOwner, away])
      expect(await inA((tx) => updateMember(tx, annOfA, change, ["owner"]))).toEqual({
        ok: false,
        error: { code: "last-owner" },
      });
  });

  test("is an owner by an owner's hand only", async () => {
    const abe = { name: "Abe", phone: "", active: true, roles: ["supervisor" as const, "owner" as const] };
    expect(await inA((tx) => updateMember(tx, abeOfA, abe, ["supervisor"]))).toEqual({
      ok: false,
      error: { code: "owner-role-is-an-owners" },
    });
  });

  test("remains when two owners strike each other out at the same time", async () => {
    const owner = { active: true, phone: "", roles: ["owner" as const] };
    const made = await inA((tx) => updateMember(tx, abeOfA, { ...owner, name: "Abe" }, ["owner"]));
    expect(made.ok).toBe(true);
    const technician = { active: true, phone: "", roles: ["technician" as const] };
    const both = await Promise.all([
      inA((tx) => updateMember(tx, abeOfA, { ...technician, name: "Abe" }, ["owner"])),
      inA((tx) => updateMember(tx, annOfA, { ...technician, name: "Ann" }, ["owner"])),
    ]);
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    const owners = (await inA(listMembers)).filter(({ roles }) => roles.includes("owner"));
    expect(owners).toHaveLength(1);
  });
});

describe("a cylinder's label", () => {
  test("is taken once in a company, and free in another", async () => {
    expect(await inA((tx) => createCylinder(tx, cylinder))).toEqual({ ok: false, error: { code: "label-taken" } });
    expect((await inB((tx) => createCylinder(tx, cylinder))).ok).toBe(true);
  });
});

describe("an import", () => {
  const imported = (text: string) =>
    inA(async (tx) => {
      const read = previewImport(text, null, "America/Denver", await readRegister(tx));
      if (!read.ok || !read.value.plan) throw new Error("the file has faults");
      await carryOutImport(tx, read.value.plan);
      return read.value.plan.counts;
    }, BULK_TIMEOUT_MS);
  const file =
    "Customer,Site,Unit,Serial,Refrigerant,Charge lb\nPine Motel,Main,Ice maker,IM-1,R-290,0.3\nPine Motel,Main,Cooler,IM-2,,\nElm street bakery,shop,Oven,OV-1,,\n";

  test("creates what is new under what is there, and nothing the second time", async () => {
    expect(await imported(file)).toEqual({
      customers: { created: 1, matched: 1 },
      sites: { created: 1, matched: 1 },
      units: { created: 3, matched: 0 },
    });
    expect(await imported(file)).toMatchObject({ units: { created: 0, matched: 3 }, customers: { created: 0 } });
    await inA(async (tx) => {
      const [found] = await searchRegister(tx, "IM-1", { kinds: ["equipment"], limit: 5 });
      const made = await findEquipment(tx, found!.id);
      expect(made?.circuits).toMatchObject([{ nameplateRefrigerant: "R-290", refrigerantState: "unknown" }]);
      expect(made?.circuits[0]?.factoryChargeKg).toBeCloseTo(0.3 * 0.45359237, 9);
    });
  });

  test("of 10 000 units is one transaction", async () => {
    const lines = Array.from({ length: 10_000 }, (_, n) => `Big ${n % 400},Site ${n % 800},Unit ${n},SN-${n},R-410A,7`);
    const began = Date.now();
    const counts = await imported(["Customer,Site,Unit,Serial,Refrigerant,Charge lb", ...lines].join("\n"));
    expect(counts.units.created).toBe(10_000);
    const searched = Date.now();
    const [hit] = await inA((tx) =>
      searchRegister(tx, "SN-9999", { kinds: ["customer", "site", "equipment"], limit: 12 }),
    );
    console.info(`import of 10 000 units ${searched - began} ms, search among them ${Date.now() - searched} ms`);
    expect(hit?.label).toBe("Unit 9999");
  });
});
