import { Client } from "pg";
import { v7 as uuidv7 } from "uuid";
import type { Member } from "@/lib/auth/session";
import { takeCall } from "@/lib/db/calls";
import { prismaClient } from "@/lib/db/client";
import { openJob } from "@/lib/db/jobs";
import { BULK_TIMEOUT_MS, type TenantTx, withTenant } from "@/lib/db/tenant";
import { planVisit } from "@/lib/db/visits";
import { openWorkOrder } from "@/lib/db/work-orders";
import { commandEnv } from "@/lib/env";
import type { JobKind } from "@/lib/hvac/procedure";
import { CompanyId, PersonId } from "@/lib/ids";
import { addDays, dayAt, instantAt, weekdayOf } from "@/lib/work/site-time";
import { afterHold, hold, upToEvacuation } from "./demo/evidence";
import { writeFieldWork } from "./demo/field-work";
import { writeHistory } from "./demo/history/write-history";
import * as demo from "./demo/scenario";
import { addPerson, createCompany } from "./new-company";

/** Fills an empty database with the invented demo companies: people and two years of history by the migrator, the work of these days as the application. */
async function seedDemo(migratorUrl: string, now: Date, withHistory: boolean): Promise<void> {
  const client = new Client({ connectionString: migratorUrl });
  await client.connect();
  const made = new Map<string, { id: CompanyId; people: Map<string, PersonId> }>();
  try {
    await client.query("begin");
    for (const company of demo.demoCompanies) {
      const id = CompanyId.parse(await createCompany(client, { ...company, isDemo: true }));
      const people = new Map<string, PersonId>();
      for (const person of company.people) {
        people.set(person.email, PersonId.parse(await addPerson(client, id, person, demo.demoPassword)));
      }
      made.set(company.slug, { id, people });
    }
    if (withHistory) {
      const { id, people } = made.get("fernhollow")!;
      await writeHistory(client, { company: id, timeZone: demo.demoCompanies[0]!.timeZone, people }, now);
    }
    await client.query("commit");
    await client.query("analyze");
  } finally {
    await client.end();
  }
  const { id, people } = made.get("fernhollow")!;
  const timeZone = demo.demoCompanies[0]!.timeZone;
  const tomas: Member = {
    personId: people.get("tomas@fernhollow.example")!,
    sessionId: "",
    name: "Tomas Reedley",
    email: "tomas@fernhollow.example",
    companyId: id,
    slug: "fernhollow",
    companyName: demo.demoCompanies[0]!.name,
    timeZone,
    ruleSet: "us",
    memberName: "Tomas Reedley",
    roles: ["technician"],
  };
  await withTenant(id, (tx) => fillFernhollow(tx, people, tomas, now), BULK_TIMEOUT_MS);
}

async function fillFernhollow(tx: TenantTx, people: Map<string, PersonId>, tomas: Member, now: Date): Promise<void> {
  const { timeZone } = tomas;
  const today = dayAt(now, timeZone);
  const day = (text: string) => new Date(`${text}T00:00:00Z`);
  await tx.certificate.createMany({
    data: demo.fernhollowCertificates.map(({ email, ...each }) => ({
      id: uuidv7(),
      personId: people.get(email)!,
      ...each,
    })),
  });
  await tx.tool.createMany({
    data: demo.fernhollowTools.map(({ calibratedInDays, checkInDays, madeOn, holder, ...each }) => ({
      id: uuidv7(),
      ...each,
      heldBy: people.get(holder)!,
      ...(calibratedInDays !== undefined && { calibrationDueOn: day(addDays(today, calibratedInDays)) }),
      ...(checkInDays !== undefined && { checkDueOn: day(addDays(today, checkInDays)) }),
      ...(madeOn !== undefined && { madeOn: day(madeOn) }),
    })),
  });
  // whoever looks at the demo on a Sunday finds somebody at work as well
  for (const { email, hours, ...base } of demo.fernhollowField) {
    const personId = people.get(email)!;
    await tx.fieldProfile.create({ data: { personId, ...base } });
    await tx.weeklyShift.createMany({
      data: [...new Set([1, 2, 3, 4, 5, weekdayOf(today)])].map((weekday) => ({
        personId,
        weekday,
        beginsMinute: hours[0],
        endsMinute: hours[1],
      })),
    });
  }
  await tx.planningRule.create({ data: demo.fernhollowPlanning });
  await tx.cylinder.createMany({
    data: demo.fernhollowCylinders.map(({ requalifyBy, ...each }) => ({
      id: uuidv7(),
      ...each,
      requalifyBy: day(requalifyBy),
    })),
  });
  const registered = [];
  for (const customer of demo.fernhollowCustomers) registered.push(await register(tx, customer, timeZone));

  const dispatcher = people.get("ada@fernhollow.example")!;
  const [dental, apartments, school, , bakery] = registered;
  await takeCall(
    tx,
    {
      ...called(dental!),
      symptom: "Blows warm air since yesterday, ice on the pipe.",
      urgency: "today",
      caller: "Reception",
    },
    dispatcher,
  );
  await takeCall(
    tx,
    { ...called(school!), symptom: "Gym heat pump trips after ten minutes.", urgency: "soon", caller: "" },
    dispatcher,
  );
  const callId = await takeCall(
    tx,
    { ...called(apartments!), symptom: "Not cooling, topped up last summer.", urgency: "today", caller: "Caretaker" },
    dispatcher,
  );
  const orderId = await openWorkOrder(tx, callId!);
  const at = (clock: string) => instantAt(`${today}T${clock}`, timeZone)!;
  await planVisit(tx, orderId!, {
    window: { from: at("08:00"), to: at("12:00") },
    plannedStart: at("09:00"),
    plannedMinutes: 240,
    people: [tomas.personId],
  });
  await jobOn(tx, apartments!, orderId!, "leak_repair", tomas);

  const daysAgo = (days: number) => new Date(now.getTime() - days * 24 * 3_600_000);
  const proven = await pastJob(tx, dental!, dispatcher, "Compressor seized.", tomas, daysAgo(40));
  const dry = hold(181, 310, 160, 260);
  await writeFieldWork(tx, proven, tomas, daysAgo(40), [
    ...upToEvacuation(daysAgo(40)),
    dry,
    ...afterHold(tomas.personId),
  ]);
  const short = await pastJob(tx, bakery!, dispatcher, "Compressor hums and does not start.", tomas, daysAgo(1));
  await writeFieldWork(tx, short, tomas, daysAgo(1), [
    ...upToEvacuation(daysAgo(1)),
    hold(49, 330, 260, 240),
    {
      kind: "override-asked",
      body: { step: "hold", why: "The shop opens in ten minutes and needs the yard; the reading was flattening." },
    },
    {
      kind: "left-for-today",
      body: { holding: "valved-off", tag: "Yellow tag on the suction valve", note: "Back tomorrow at seven." },
    },
  ]);
}

/** A call from before with its work order and circuit job; the job's id. */
async function pastJob(
  tx: TenantTx,
  customer: Registered,
  dispatcher: PersonId,
  symptom: string,
  by: Member,
  at: Date,
) {
  const callId = await takeCall(tx, { ...called(customer), symptom, urgency: "today", caller: "" }, dispatcher);
  const orderId = await openWorkOrder(tx, callId!);
  return jobOn(tx, customer, orderId!, "compressor_change", by, at);
}

async function jobOn(tx: TenantTx, customer: Registered, workOrderId: string, kind: JobKind, by: Member, at?: Date) {
  const circuit = await tx.circuit.findFirstOrThrow({ where: { equipmentId: customer.equipmentIds[0]! } });
  const job = await openJob(tx, { workOrderId, circuitId: circuit.id, kind }, by, at);
  if (!job.ok) throw new Error(`demo job: ${job.error.code}`);
  return job.value;
}

type Registered = Awaited<ReturnType<typeof register>>;
type DemoCustomer = (typeof demo.fernhollowCustomers)[number];

async function register(tx: TenantTx, customer: DemoCustomer, timeZone: string) {
  const [customerId, siteId] = [uuidv7(), uuidv7()];
  const { name, phone, site, units } = customer;
  await tx.customer.create({ data: { id: customerId, name, phone } });
  await tx.site.create({ data: { id: siteId, customerId, timeZone, region: "IL", country: "US", ...site } });
  const equipmentIds = [];
  for (const unit of units) {
    const equipmentId = uuidv7();
    const { maker, model, serial, yearMade, place, applianceKind } = unit;
    await tx.equipment.create({
      data: { id: equipmentId, siteId, name: unit.name, maker, model, serial, yearMade, place, applianceKind },
    });
    await tx.circuit.create({
      data: {
        id: uuidv7(),
        equipmentId,
        nameplateRefrigerant: unit.refrigerant,
        refrigerantState: "identified",
        actualRefrigerant: unit.refrigerant,
        factoryChargeKg: unit.chargeKg,
        factoryLineLengthM: 4.6,
        lineLengthM: unit.lineM,
        liquidLineOdMm: unit.liquidMm,
        suctionLineOdMm: unit.suctionMm,
        internalVolumeL: unit.volumeL,
        internalVolumeBasis: "estimated",
        lowSideDesignKpaGauge: unit.lowKPa,
        highSideDesignKpaGauge: unit.highKPa,
      },
    });
    equipmentIds.push(equipmentId);
  }
  return { customerId, siteId, equipmentIds };
}

function called(customer: { customerId: string; siteId: string; equipmentIds: string[] }) {
  return { customerId: customer.customerId, siteId: customer.siteId, equipmentId: customer.equipmentIds[0]! };
}

const { MIGRATOR_URL } = commandEnv();
if (!MIGRATOR_URL) throw new Error("MIGRATOR_URL is needed to add the demo; npm start sets it.");
await seedDemo(MIGRATOR_URL, new Date(), process.argv.includes("--history"));
await prismaClient().$disconnect();
