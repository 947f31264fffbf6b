import type { Client } from "pg";
import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { createCustomer } from "@/lib/db/customers";
import { preTenantTables } from "@/lib/db/pre-tenant-list";
import { withTenant } from "@/lib/db/tenant";
import { withConnection } from "./fresh-database";
import { type TwoCompanies, twoCompanies } from "./two-companies";

interface Column {
  name: string;
  type: string;
  generated: boolean;
}
interface Table {
  name: string;
  columns: Column[];
  key: string[];
  rights: string[];
  pointers: { name: string; columns: string[] }[];
}

let database: TwoCompanies;
let tables: Table[];
beforeAll(async () => {
  database = await twoCompanies();
  await withConnection(database.adminUrl, async (admin) => {
    tables = await readTables(admin);
    for (const company of [database.alder.company, database.birch.company]) await plantARowInEach(admin, company);
  });
});
afterAll(() => database.drop());

const TENANT_TABLES = `select c.oid, c.relname as name from pg_class c join pg_namespace n on n.oid = c.relnamespace
  where c.relkind in ('r', 'p') and n.nspname !~ '^pg_' and n.nspname <> 'information_schema'
    and n.nspname || '.' || c.relname <> all ($1) and c.relname <> '_prisma_migrations'`;

/** Every tenant table in the catalogue, in an order in which each one's pointers come after what they point at. */
async function readTables(admin: Client): Promise<Table[]> {
  const { rows } = await admin.query<Table & { needs: string[] }>(
    `with t as (${TENANT_TABLES}) select name,
      (select json_agg(json_build_object('name', attname, 'type', format_type(atttypid, null),
                'generated', attidentity <> '' or attgenerated <> '') order by attnum)
         from pg_attribute where attrelid = t.oid and attnum > 0 and not attisdropped) as columns,
      (select json_agg(a.attname) from pg_index i join pg_attribute a on a.attrelid = t.oid and a.attnum = any (i.indkey)
         where i.indrelid = t.oid and i.indisprimary) as key,
      (select coalesce(json_agg(lower(p)), '[]') from unnest(array['SELECT','INSERT','UPDATE','DELETE']) p
         where has_table_privilege('dryhold_app', t.oid, p)) as rights,
      (select coalesce(json_agg(json_build_object('name', k.conname, 'columns',
                (select json_agg(a.attname) from pg_attribute a where a.attrelid = t.oid and a.attnum = any (k.conkey)))), '[]')
         from pg_constraint k where k.conrelid = t.oid and k.contype = 'f') as pointers,
      (select coalesce(json_agg(distinct k.confrelid::regclass::text), '[]')
         from pg_constraint k where k.conrelid = t.oid and k.contype = 'f' and k.confrelid <> t.oid) as needs
     from t`,
    [preTenantTables],
  );
  const sorted: typeof rows = [];
  while (sorted.length < rows.length) {
    const next = rows.filter(
      (row) => !sorted.includes(row) && row.needs.every((need) => sorted.some(({ name }) => name === need)),
    );
    if (next.length === 0) throw new Error("tables point at each other in a circle");
    sorted.push(...next);
  }
  return sorted;
}

/** One row of the company in each table that has none yet, each value the plainest its column takes. */
async function plantARowInEach(admin: Client, company: string): Promise<void> {
  const { alder, birch } = database;
  const at = company === alder.company ? alder : birch;
  const entry = await admin.query<{ id: string }>("select id from entry where tenant_id = $1", [company]);
  const insert = (table: string, row: Record<string, unknown>) => {
    const names = Object.keys(row);
    const places = names.map((_, index) => `$${index + 1}`).join(", ");
    return admin.query(
      `insert into ${table} (${names.join(", ")}) values (${places}) on conflict do nothing`,
      Object.values(row),
    );
  };
  const tenant = { tenant_id: company };
  const person = { ...tenant, person_id: at.technician.personId };
  const other = at.supervisor.personId;
  const [visit, trace] = [uuidv7(), uuidv7()];
  await insert("certificate", { ...person, id: uuidv7(), kind: "us-universal" });
  await insert("tool", { ...tenant, id: uuidv7(), kind: "pump", name: "Pump", held_by: at.technician.personId });
  const [gauge, otherGauge] = [uuidv7(), uuidv7()];
  for (const id of [gauge, otherGauge])
    await insert("tool", { ...tenant, id, kind: "vacuum-gauge", name: "Gauge", held_by: at.technician.personId });
  const compared = { what: "compared", reading: 500, other_reading: 520, allowed: 100, good: true };
  const both = { tool_id: gauge, other_tool_id: otherGauge, job_id: at.job, on_day: "2026-11-25" };
  await insert("tool_event", { ...person, id: uuidv7(), ...both, ...compared });
  const used = { tool_id: gauge, job_id: at.job, step: "pump-down", used_at: "2026-11-25T08:00Z" };
  await insert("tool_use", { ...tenant, entry_id: entry.rows[0]!.id, ...used });
  const masses = { water_capacity_kg: 20, tare_kg: 12, held_by: at.technician.personId };
  await insert("cylinder", { ...tenant, id: uuidv7(), label: "C-1", contents: "empty", ...masses });
  const asked = await admin.query<{ id: string }>("select id from service_call where tenant_id = $1", [company]);
  const every = { what: "Check", every_months: 6, first_due: "2026-12-01", window_weeks: 2 };
  const unit = { equipment_id: at.equipmentId, circuit_id: at.circuitId, last_call_id: asked.rows[0]!.id };
  await insert("maintenance_plan", { ...tenant, id: uuidv7(), ...unit, ...every, made_by: other });
  await insert("visit", { ...tenant, id: visit, work_order_id: at.workOrderId });
  await insert("visit_person", { ...person, visit_id: visit });
  await insert("customer_message", { ...tenant, id: uuidv7(), visit_id: visit, kind: "plan", state: "sent" });
  await insert("tablet_key", { ...person, key: Buffer.alloc(32) });
  await insert("planning_rule", tenant);
  await insert("weekly_shift", { ...person, weekday: 1, begins_minute: 480, ends_minute: 1020 });
  const hours = { from_at: "2026-11-25T08:00Z", to_at: "2026-11-25T12:00Z" };
  await insert("person_time", { ...person, id: uuidv7(), kind: "away", ...hours });
  await insert("field_profile", { ...person, rides_with: other });
  await insert("van_stock", { ...person, part: "filter drier", quantity: 2 });
  await insert("visit_demand", { ...tenant, visit_id: visit, pinned_to: other, preferred_person: other });
  await insert("visit_part", { ...tenant, visit_id: visit, part: "filter drier", quantity: 1 });
  const leg = { from_lat: 1, from_lon: 2, to_lat: 3, to_lon: 4, seconds: 5 };
  await insert("travel_leg", { ...tenant, service: "a road service", ...leg });
  const raw = { raw: "x", raw_digest: Buffer.alloc(32) };
  await insert("quarantine", {
    ...person,
    id: uuidv7(),
    reason: "malformed",
    reviewed_by: at.supervisor.personId,
    ...raw,
  });
  await insert("trace", { ...person, id: trace, job_id: at.job });
  const packed = { packed: Buffer.alloc(9), digest: Buffer.alloc(32) };
  const span = { from_at: "2026-11-25T08:00Z", to_at: "2026-11-25T08:01Z" };
  const sent = { key: "1", digest: Buffer.alloc(32), unit: "Pa", ...span, readings: "[]" };
  await insert("instrument_batch", { ...tenant, tool_id: gauge, ...sent });
  const taken = {
    media_type: "image/png",
    bytes: Buffer.alloc(9),
    salt: Buffer.alloc(16),
    salted_digest: Buffer.alloc(32),
  };
  await insert("job_picture", { ...person, id: uuidv7(), job_id: at.job, ...taken });
  const erased = { bytes: null, salt: null, erased_at: "2026-11-25T08:00Z", erased_by: other };
  await insert("job_picture", { ...person, id: uuidv7(), job_id: at.job, ...taken, ...erased });
  await insert("trace_chunk", { ...tenant, trace_id: trace, chunk_index: 0, sample_count: 1, ...packed });
  const judged = { judged_by: "server", rules_version: "1", verdict: "wet", judgement: "{}" };
  await insert("verdict", { ...tenant, entry_id: entry.rows[0]!.id, job_id: at.job, ...judged });
  const cause = uuidv7();
  await insert("callback_rule", tenant);
  await insert("callback_cause", { ...tenant, id: cause, words: "Something of our own" });
  const decided = { came_on: "2026-11-25", decided_by: at.supervisor.personId, own_cause_id: cause };
  await insert("callback", {
    ...tenant,
    work_order_id: at.workOrderId,
    origin_job_id: at.job,
    basis: "same-unit",
    ...decided,
  });
  const alike = { job_kind: "leak_repair", unit_age: "unknown", strength: "fair" };
  await insert("job_outcome", { ...person, job_id: at.job, ...alike });
  await insert("outcome_month", { ...tenant, month: "2026-11-01", ...alike, jobs: 1 });
  await insert("person_month", { ...person, month: "2026-11-01", job_kind: "leak_repair", jobs: 1 });
  await insert("office_event", { ...person, id: uuidv7(), what: "x", subject: "job", subject_id: at.job });
  const held = (await admin.query("select id from cylinder where tenant_id = $1", [company])).rows[0]!.id;
  const paper = { made_by: other, on_day: "2026-11-25", cylinder_id: held, circuit_id: at.circuitId, to_person: other };
  const [document, from, call] = [
    uuidv7(),
    uuidv7(),
    await admin.query("select id from service_call where tenant_id = $1", [company]),
  ];
  await insert("refrigerant_document", { ...tenant, id: document, kind: "handover", ...paper });
  const moved = { happened_on: "2026-11-25", refrigerant: "R-410A", grams: 5, person_id: other, document_id: document };
  const because = { job_id: at.job, entry_id: entry.rows[0]!.id, owner_id: at.customerId };
  const there = { from_kind: "circuit", from_circuit_id: at.circuitId, to_kind: "cylinder", to_cylinder_id: held };
  const back = { from_kind: "cylinder", from_cylinder_id: held, to_kind: "circuit", to_circuit_id: at.circuitId };
  await insert("posting", {
    ...tenant,
    id: from,
    ...moved,
    ...because,
    ...there,
    cause: "recovery",
    source_key: "one",
  });
  const undone = { cause: "recovery", source_key: "two", reverses: from };
  await insert("posting", { ...tenant, id: uuidv7(), ...moved, ...because, ...back, ...undone });
  const promised = { cylinder_id: held, direction: "in", refrigerant: "R-410A", grams: 1, until_day: "2026-11-25" };
  await insert("cylinder_reservation", {
    ...tenant,
    id: uuidv7(),
    ...promised,
    made_by: other,
    customer_id: at.customerId,
  });
  await insert("refrigerant_rule", tenant);
  await insert("circuit_duty", { ...tenant, circuit_id: at.circuitId });
  const done = { kind: "repair", happened_on: "2026-11-25", source_key: "planted", person_id: other };
  const first = uuidv7();
  const seen = { ...tenant, circuit_id: at.circuitId, ...done, job_id: at.job, entry_id: entry.rows[0]!.id };
  await insert("law_event", { ...seen, id: first });
  await insert("law_event", { ...seen, id: uuidv7(), source_key: "planted again", supersedes: first });
  const due = { code: "repair", since: "2026-11-25", words: "x", whose: "contractor", source: "x", mark: "memory" };
  await insert("duty", { ...tenant, circuit_id: at.circuitId, ...due, call_id: call.rows[0]!.id });
}

/** Runs `work` as the application for a company, and rolls it back. */
function asApp<T>(company: string | null, work: (client: Client) => Promise<T>): Promise<T> {
  return withConnection(database.databaseUrl, async (client) => {
    await client.query("begin");
    if (company !== null) await client.query("select set_config('app.tenant_id', $1, true)", [company]);
    try {
      return await work(client);
    } finally {
      await client.query("rollback");
    }
  });
}

/** The company's first row in a table, as the server's own superuser sees it, every value as text. */
async function firstRow(
  table: Table,
  company: string,
  filled: readonly string[] = [],
): Promise<Record<string, string | null>> {
  const columns = table.columns.map(({ name }) => `${name}::text as ${name}`).join(", ");
  const where = ["tenant_id = $1", ...filled.map((name) => `${name} is not null`)].join(" and ");
  const { rows } = await withConnection(database.adminUrl, (admin) =>
    admin.query(`select ${columns} from ${table.name} where ${where} limit 1`, [company]),
  );
  if (!rows[0]) throw new Error(`nothing planted in ${table.name}`);
  return rows[0];
}

function insertOf(table: Table, row: Record<string, string | null>): { text: string; values: (string | null)[] } {
  const columns = table.columns.filter(({ generated }) => !generated);
  const places = columns.map(({ type }, index) => `$${index + 1}::text::${type}`);
  return {
    text: `insert into ${table.name} (${columns.map(({ name }) => name).join(", ")}) values (${places.join(", ")})`,
    values: columns.map(({ name }) => row[name] ?? null),
  };
}

const plainOf: Readonly<Record<string, string>> = { integer: "77", date: "1999-01-01" };

/** The same row under ids of its own, where it may have any: what it points at stays. */
function withNewIds(table: Table, row: Record<string, string | null>): Record<string, string | null> {
  const pointing = new Set(table.pointers.flatMap(({ columns }) => columns));
  const fresh = table.key.filter((name) => !pointing.has(name) && name !== "tenant_id");
  const values = table.columns.flatMap(({ name, type }): (readonly [string, string | null])[] => {
    if (name === "number" || name === "seq") return [[name, "987654"] as const];
    if (name === "weekday") return [[name, "7"] as const];
    if (name === "month") return [[name, "1999-01-01"] as const];
    if (name === "label") return [[name, "C-other"] as const];
    if (name === "reverses" || name === "supersedes") return [[name, null] as const];
    if (name === "source_key") return [[name, "another"] as const];
    if (name === "raw_digest") return [[name, `\\x${"11".repeat(32)}`] as const];
    if (name === "judged_by") return [[name, "device"] as const];
    if (!fresh.includes(name)) return [];
    return [[name, type === "uuid" ? uuidv7() : (plainOf[type] ?? "other")] as const];
  });
  return { ...row, ...Object.fromEntries(values) };
}

/** One row at most for each thing it points at: there is no second one to add. */
function isKeyOfPointers({ key, pointers }: Table): boolean {
  const pointing = new Set(pointers.flatMap(({ columns }) => columns));
  return key.every((column) => pointing.has(column));
}

async function each(check: (table: Table) => Promise<void>): Promise<void> {
  for (const table of tables)
    await check(table).catch((error: Error) => {
      throw new Error(`${table.name}: ${error.message}`, { cause: error });
    });
}

describe("in every table of the catalogue", () => {
  test("there is a row of each company to be reached", async () => {
    expect(tables.length).toBeGreaterThanOrEqual(29);
    await each(async (table) => {
      for (const { company } of [database.alder, database.birch]) await firstRow(table, company);
    });
  });

  test("without a company there are no rows, and no error", async () => {
    await each(async (table) => {
      expect((await asApp(null, (app) => app.query(`select 1 from ${table.name}`))).rowCount).toBe(0);
      expect((await asApp("", (app) => app.query(`select 1 from ${table.name}`))).rowCount).toBe(0);
    });
  });

  test("a company sees its own rows and nobody else's", async () => {
    await each(async (table) => {
      const seen = await asApp(database.birch.company, (app) => app.query(`select tenant_id from ${table.name}`));
      expect(seen.rowCount).toBeGreaterThan(0);
      expect(new Set(seen.rows.map((row) => row.tenant_id))).toEqual(new Set([database.birch.company]));
    });
  });

  test("a company cannot write a row for another", async () => {
    await each(async (table) => {
      const row = withNewIds(table, await firstRow(table, database.alder.company));
      const wrong = asApp(database.birch.company, (app) => app.query(insertOf(table, row)));
      await expect(wrong).rejects.toThrow(table.rights.includes("insert") ? /row-level security/ : /permission denied/);
    });
  });

  test("the same row is taken from the company it belongs to, so that the refusal is for the company alone", async () => {
    await each(async (table) => {
      if (!table.rights.includes("insert")) return;
      const row = withNewIds(table, await firstRow(table, database.alder.company));
      if (table.name === "member") row.person_id = uuidv7();
      if (isKeyOfPointers(table)) return;
      const own = await asApp(database.alder.company, (app) => app.query(insertOf(table, row)));
      expect(own.rowCount).toBe(1);
    });
  });

  test("an update or a delete without a condition leaves another company's rows alone", async () => {
    await each(async (table) => {
      const [update, remove] = [`update ${table.name} set tenant_id = tenant_id`, `delete from ${table.name}`];
      for (const [sql, right] of [
        [update, "update"],
        [remove, "delete"],
      ] as const) {
        const touching = asApp(database.birch.company, (app) =>
          app.query(`${sql} where tenant_id <> $1`, [database.birch.company]),
        );
        if (table.rights.includes(right)) expect((await touching).rowCount).toBe(0);
        else await expect(touching).rejects.toThrow(/permission denied/);
      }
    });
  });

  test("a company cannot give a row of its own to another", async () => {
    await each(async (table) => {
      if (!table.rights.includes("update")) return;
      const giving = asApp(database.birch.company, (app) =>
        app.query(`update ${table.name} set tenant_id = $1`, [database.alder.company]),
      );
      await expect(giving).rejects.toThrow(/row-level security/);
    });
  });

  test("no pointer of a company reaches another's row", async () => {
    let tried = 0;
    await each(async (table) => {
      if (!table.rights.includes("insert")) return;
      for (const { name, columns } of table.pointers) {
        const pointing = columns.filter((column) => column !== "tenant_id");
        if (pointing.length === 0) continue; // only the company itself: no row can be written for another
        const own = await firstRow(table, database.birch.company, pointing);
        const foreign = await firstRow(table, database.alder.company, pointing);
        const row = withNewIds(table, own);
        for (const column of pointing) row[column] = foreign[column] ?? null;
        expect(pointing.map((column) => row[column])).not.toContain(null);
        // beside the row itself, where there can be only one of its key
        const changed = pointing.filter((column) => !table.key.includes(column));
        const instead = isKeyOfPointers(table) && changed.length > 0;
        // by the owner of the tables: where the application may not change a pointer, the key holds all the same
        const moved = `update ${table.name} set ${changed[0]} = $1 where tenant_id = $2`;
        const reaching = instead
          ? withConnection(database.adminUrl, (admin) =>
              admin.query(moved, [foreign[changed[0]!], database.birch.company]),
            )
          : asApp(database.birch.company, (app) => app.query(insertOf(table, row)));
        await expect(reaching, name).rejects.toThrow(/foreign key/);
        tried += 1;
      }
    });
    expect(tried).toBeGreaterThanOrEqual(25);
  });
});

describe("many transactions of two companies at once", () => {
  test("400 of them, 40 at a time, some thrown away, see and leave only what is their own", {
    timeout: 120_000,
  }, async () => {
    const { alder, birch } = database;
    let seed = 20261125;
    const random = () => {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      return seed / 2 ** 32;
    };
    const acts = Array.from({ length: 400 }, (_, n) => ({
      n,
      at: random() < 0.5 ? alder : birch,
      fails: random() < 0.3,
    }));
    const leaks: string[] = [];
    const outcomes: boolean[] = [];
    const act = ({ n, at, fails }: (typeof acts)[number]) =>
      withTenant(at.company, async (tx) => {
        await createCustomer(tx, {
          name: `${at.dispatcher.slug} ${n}`,
          phone: "",
          email: "",
          mayWrite: false,
          note: "",
        });
        const foreign = (await tx.customer.findMany()).filter(({ name }) => !name.includes(at.dispatcher.slug));
        leaks.push(...foreign.map(({ name }) => `${at.dispatcher.slug} saw ${name}`));
        if (fails) throw new Error("on purpose");
      });
    const hand = async (first: number) => {
      for (let n = first; n < acts.length; n += 40) {
        outcomes[n] = await act(acts[n]!).then(
          () => false,
          (error: Error) => error.message === "on purpose",
        );
      }
    };
    await Promise.all(Array.from({ length: 40 }, (_, first) => hand(first)));
    expect(leaks).toEqual([]);
    expect(outcomes).toEqual(acts.map(({ fails }) => fails));
    const kept = await withConnection(database.adminUrl, (admin) =>
      admin.query<{ tenant_id: string; name: string }>("select tenant_id, name from customer where name ~ ' [0-9]+$'"),
    );
    const expected = acts.filter(({ fails }) => !fails).map(({ n, at }) => `${at.company} ${at.dispatcher.slug} ${n}`);
    expect(kept.rows.map((row) => `${row.tenant_id} ${row.name}`).sort()).toEqual(expected.sort());
  });

  test("the company of one transaction is gone in the next on the same connection", async () => {
    await withConnection(database.databaseUrl, async (client) => {
      await client.query("begin");
      await client.query("select set_config('app.tenant_id', $1, true)", [database.alder.company]);
      expect((await client.query("select 1 from customer")).rowCount).toBeGreaterThan(0);
      await client.query("commit");
      expect((await client.query("select 1 from customer")).rowCount).toBe(0);
    });
  });
});
