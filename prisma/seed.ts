import { Client } from "pg";
import { v7 as uuidv7 } from "uuid";
import { takeCall } from "@/lib/db/calls";
import { prismaClient } from "@/lib/db/client";
import { type TenantTx, withTenant } from "@/lib/db/tenant";
import { planVisit } from "@/lib/db/visits";
import { openWorkOrder } from "@/lib/db/work-orders";
import { commandEnv } from "@/lib/env";
import { CompanyId, PersonId } from "@/lib/ids";
import { addDays, dayAt, instantAt } from "@/lib/work/site-time";
import * as demo from "./demo/scenario";
import { addPerson, createCompany } from "./new-company";

/** Fills an empty database with the invented demo companies: people by the migrator, their work as the application. */
async function seedDemo(migratorUrl: string, now: Date): Promise<void> {
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
    await client.query("commit");
  } finally {
    await client.end();
  }
  const { id, people } = made.get("fernhollow")!;
  const timeZone = demo.demoCompanies[0]!.timeZone;
  await withTenant(id, (tx) => fillFernhollow(tx, people, timeZone, now));
}

async function fillFernhollow(tx: TenantTx, people: Map<string, PersonId>, timeZone: string, now: Date): Promise<void> {
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
    data: demo.fernhollowTools.map(({ calibratedInDays, madeOn, ...each }) => ({
      id: uuidv7(),
      ...each,
      ...(calibratedInDays !== undefined && { calibrationDueOn: day(addDays(today, calibratedInDays)) }),
      ...(madeOn !== undefined && { madeOn: day(madeOn) }),
    })),
  });
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
  const [dental, apartments, school] = registered;
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
    people: [people.get("tomas@fernhollow.example")!],
  });
}

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
await seedDemo(MIGRATOR_URL, new Date());
await prismaClient().$disconnect();
