import { Client } from "pg";
import { v7 as uuidv7 } from "uuid";

/** Ways of a seed, the same in each run. */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1_664_525 + 1_013_904_223) % 4_294_967_296;
    return state / 4_294_967_296;
  };
}

const SURNAMES = [
  "Ashcombe",
  "Birkfield",
  "Calderway",
  "Dunmere",
  "Elmsworth",
  "Foxholt",
  "Garsdale",
  "Hollin",
  "Ivesley",
  "Jarrow",
];
const GIVEN = ["Abel", "Bea", "Cato", "Dora", "Emil", "Fenna"];

export interface PlantedCompany {
  readonly tenant: string;
  readonly slug: string;
  readonly technicians: readonly string[];
}

/**
 * An invented company of many technicians with ten visits each on one day, seven more without a place; the demo's
 * dispatchers belong to it. Written by the migrator, who is held to no policy.
 */
export async function plantCompany(
  migratorUrl: string,
  given: { readonly slug: string; readonly day: string; readonly technicians: number; readonly visitsEach: number },
): Promise<PlantedCompany> {
  const { slug, day } = given;
  const client = new Client({ connectionString: migratorUrl });
  await client.connect();
  const random = seeded(7);
  const tenant = uuidv7();
  const rows = new Map<string, unknown[][]>();
  const add = (into: string, ...values: unknown[]) => rows.set(into, [...(rows.get(into) ?? []), values]);
  const near = (middle: number) => middle + (random() - 0.5) * 0.3;
  const at = (minutes: number) => `${day}T${clock(minutes)}`;
  try {
    await client.query("begin");
    await client.query("insert into gate.company (id, slug) values ($1, $2)", [tenant, slug]);
    await client.query("insert into company (tenant_id, name, time_zone) values ($1, $2, 'America/Chicago')", [
      tenant,
      `${slug} (invented)`,
    ]);
    await client.query(
      `insert into member (tenant_id, person_id, name, email, roles)
       select distinct on (person_id) $1::uuid, person_id, name, email, array['dispatcher'] from member where email in ('ada@fernhollow.example', 'june@fernhollow.example')`,
      [tenant],
    );
    const { rows: dispatchers } = await client.query<{ person_id: string }>(
      "select person_id from member where tenant_id = $1",
      [tenant],
    );
    const taker = dispatchers[0]!.person_id;
    const technicians: string[] = [];
    for (let t = 0; t < given.technicians; t++) {
      const person = uuidv7();
      technicians.push(person);
      const name = `${GIVEN[t % GIVEN.length]} ${SURNAMES[Math.floor(t / GIVEN.length) % SURNAMES.length]}`;
      add("gate.person (id, email, name, password_hash)", person, `${slug}-${t}@bench.example`, name, "x");
      add("member (tenant_id, person_id, name, email, roles)", tenant, person, name, `${slug}-${t}@bench.example`, [
        "technician",
      ]);
      add("field_profile (tenant_id, person_id, latitude, longitude)", tenant, person, near(41.1), near(-87.9));
      for (let weekday = 1; weekday <= 7; weekday++)
        add(
          "weekly_shift (tenant_id, person_id, weekday, begins_minute, ends_minute)",
          tenant,
          person,
          weekday,
          420,
          1080,
        );
      add(
        "certificate (tenant_id, id, person_id, kind)",
        tenant,
        uuidv7(),
        person,
        t % 4 === 3 ? "us-type-1" : "us-universal",
      );
    }
    let number = 0;
    const visit = (person: string | null, start: number | null, minutes: number) => {
      number += 1;
      const [customer, site, call, order, id] = [uuidv7(), uuidv7(), uuidv7(), uuidv7(), uuidv7()];
      const name = `${SURNAMES[Math.floor(random() * SURNAMES.length)]} ${["Foods", "Clinic", "School", "Works"][number % 4]}`;
      add("customer (tenant_id, id, name)", tenant, customer, name);
      add(
        "site (tenant_id, id, customer_id, name, city, time_zone, latitude, longitude)",
        tenant,
        site,
        customer,
        "Site",
        ["Millford", "Ashgrove"][number % 2],
        "America/Chicago",
        near(41.1),
        near(-87.9),
      );
      add(
        "service_call (tenant_id, id, number, customer_id, site_id, symptom, urgency, taken_by, state)",
        tenant,
        call,
        number,
        customer,
        site,
        "Warm since the morning.",
        ["soon", "today", "planned"][number % 3],
        taker,
        "ordered",
      );
      add("work_order (tenant_id, id, number, service_call_id)", tenant, order, number, call);
      const windowFrom = Math.max(360, Math.round(((start ?? 600) - 60 - random() * 60) / 30) * 30);
      add(
        "visit (tenant_id, id, work_order_id, window_from, window_to, planned_start, planned_minutes)",
        tenant,
        id,
        order,
        at(windowFrom),
        at(windowFrom + 150),
        start === null ? null : at(start),
        minutes,
      );
      if (person !== null) add("visit_person (tenant_id, visit_id, person_id)", tenant, id, person);
    };
    for (const person of technicians) {
      let start = 440 + Math.round(random() * 4) * 5;
      for (let n = 0; n < given.visitsEach; n++) {
        const minutes = 25 + Math.round(random() * 4) * 5;
        visit(person, start, minutes);
        start += minutes + 15 + Math.round(random() * 3) * 5;
      }
    }
    for (let n = 0; n < 7; n++) visit(null, null, 60);
    for (const [into, all] of rows) await insertAll(client, into, all);
    await client.query(
      "insert into counter (tenant_id, name, value) values ($1, 'service_call', $2), ($1, 'work_order', $2)",
      [tenant, number],
    );
    await client.query("commit");
    await client.query("analyze"); // as the server does by itself within a minute
    return { tenant, slug, technicians };
  } finally {
    await client.end();
  }
}

const BLOCK = 500;

/** Times of a day are the company's own: written as local time, read in its zone. */
async function insertAll(client: Client, into: string, all: readonly unknown[][]): Promise<void> {
  await client.query("set local time zone 'America/Chicago'");
  for (let from = 0; from < all.length; from += BLOCK) {
    const block = all.slice(from, from + BLOCK);
    const width = block[0]!.length;
    const places = block.map(
      (_, n) => `(${Array.from({ length: width }, (__, c) => `$${n * width + c + 1}`).join(", ")})`,
    );
    await client.query(`insert into ${into} values ${places.join(", ")}`, block.flat());
  }
}

const clock = (minutes: number) =>
  `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
