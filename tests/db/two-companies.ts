import { v7 as uuidv7 } from "uuid";
import type { Role } from "@/lib/auth/roles";
import type { Member } from "@/lib/auth/session";
import { takeCall } from "@/lib/db/calls";
import { createCircuit } from "@/lib/db/circuits";
import { disconnect } from "@/lib/db/client";
import { createCustomer } from "@/lib/db/customers";
import { createEquipment } from "@/lib/db/equipment";
import { openJob } from "@/lib/db/jobs";
import { createSite } from "@/lib/db/sites";
import { withTenant } from "@/lib/db/tenant";
import { openWorkOrder } from "@/lib/db/work-orders";
import { CompanyId, type JobId, PersonId } from "@/lib/ids";
import { type FreshDatabase, freshDatabase, withConnection } from "./fresh-database";

export interface Planted {
  readonly company: CompanyId;
  readonly dispatcher: Member;
  readonly technician: Member;
  readonly supervisor: Member;
  readonly customerId: string;
  readonly siteId: string;
  readonly equipmentId: string;
  readonly circuitId: string;
  readonly workOrderId: string;
  readonly job: JobId;
}

export interface TwoCompanies extends FreshDatabase {
  readonly alder: Planted;
  readonly birch: Planted;
}

/** A database with two companies, each with three people and one open job; this process' client is pointed at it. */
export async function twoCompanies(): Promise<TwoCompanies> {
  const database = await freshDatabase();
  process.env.DATABASE_URL = database.databaseUrl;
  const alder = await plantCompany(database, "alder");
  const birch = await plantCompany(database, "birch");
  const drop = async () => {
    await disconnect();
    await database.drop();
  };
  return { ...database, alder, birch, drop };
}

/** A job more on the company's circuit, with an order of its own. */
export async function anotherJob(at: Planted): Promise<JobId> {
  return withTenant(at.company, async (tx) => (await orderAndJob(tx, at)).job);
}

/** One company more, with three people and one open job. */
export async function plantCompany(database: FreshDatabase, slug: string): Promise<Planted> {
  const company = CompanyId.parse(uuidv7());
  const ofRole = (role: Role): Member => ({
    personId: PersonId.parse(uuidv7()),
    sessionId: uuidv7(),
    name: `${role} of ${slug}`,
    memberName: `${role} of ${slug}`,
    email: `${role}@${slug}.example`,
    companyId: company,
    slug,
    companyName: slug,
    timeZone: "America/Denver",
    ruleSet: "us",
    roles: [role],
  });
  const people = {
    dispatcher: ofRole("dispatcher"),
    technician: ofRole("technician"),
    supervisor: ofRole("supervisor"),
  };
  await withConnection(database.adminUrl, async (admin) => {
    await admin.query("insert into gate.company (id, slug) values ($1, $2)", [company, slug]);
    await admin.query("insert into company (tenant_id, name, time_zone) values ($1, $2, 'America/Denver')", [
      company,
      slug,
    ]);
    for (const { personId, email, name, roles } of Object.values(people)) {
      await admin.query("insert into gate.person (id, email, name, password_hash) values ($1, $2, $3, 'x')", [
        personId,
        email,
        name,
      ]);
      await admin.query("insert into member (tenant_id, person_id, name, email, roles) values ($1, $2, $3, $4, $5)", [
        company,
        personId,
        name,
        email,
        roles,
      ]);
    }
  });
  return withTenant(company, async (tx) => {
    const customerId = await createCustomer(tx, {
      name: `Customer of ${slug}`,
      phone: "",
      email: "",
      mayWrite: false,
      note: "",
    });
    const siteId = (await createSite(tx, customerId, site))!;
    const equipmentId = (await createEquipment(tx, siteId, unit))!;
    const circuitId = (await createCircuit(tx, equipmentId, circuit))!;
    const register = { company, ...people, customerId, siteId, equipmentId, circuitId };
    return { ...register, ...(await orderAndJob(tx, register)) };
  });
}

type Register = Omit<Planted, "workOrderId" | "job">;

async function orderAndJob(tx: Parameters<typeof takeCall>[0], at: Register) {
  const { customerId, siteId, equipmentId } = at;
  const call = { customerId, siteId, equipmentId, caller: "", symptom: "no cooling", urgency: "today" } as const;
  const callId = (await takeCall(tx, call, at.dispatcher.personId))!;
  const workOrderId = (await openWorkOrder(tx, callId))!;
  const job = await openJob(tx, { workOrderId, circuitId: at.circuitId, kind: "leak_repair" }, at.dispatcher);
  if (!job.ok) throw new Error(job.error.code);
  return { workOrderId, job: job.value };
}

const site = {
  name: "Shop",
  street: "12 Elm Street",
  city: "",
  postalCode: "",
  region: "",
  country: "",
  timeZone: "America/Denver",
  latitude: null,
  longitude: null,
  accessNote: "",
};
const unit = {
  name: "Unit",
  maker: "",
  model: "",
  serial: "",
  yearMade: null,
  place: "",
  applianceKind: "comfort_cooling",
} as const;
const circuit = {
  name: "Circuit 1",
  nameplateRefrigerant: "R-410A",
  refrigerantState: "identified",
  actualRefrigerant: "R-410A",
  factoryChargeKg: 3.2,
  factoryLineLengthM: null,
  lineLengthM: null,
  liquidLineOdMm: null,
  suctionLineOdMm: null,
  internalVolumeL: 12.4,
  internalVolumeBasis: "stated",
  lowSideDesignKpaGauge: 3100,
  highSideDesignKpaGauge: 4150,
} as const;
