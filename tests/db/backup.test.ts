import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gunzipSync, gzipSync } from "node:zlib";
import fc from "fast-check";
import type { Client } from "pg";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readArchive } from "@/scripts/archive/read-archive";
import { listSequences, listTables } from "@/scripts/archive/tables";
import { writeArchive } from "@/scripts/archive/write-archive";
import { type FreshDatabase, freshDatabase, withConnection } from "./fresh-database";

const ROWS = 400;
const AWKWARD = [
  "",
  "\\N",
  "a\tb",
  "line\nbreak",
  "\\.",
  "back\\slash",
  "µ °C 冷",
  "'; drop table customer; --",
  "\r\n",
];
let source: FreshDatabase;
let folder: string;
let whole: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "dryhold-backup-"));
  whole = join(folder, "whole");
  source = await freshDatabase();
  await withConnection(source.migratorUrl, async (migrator) => {
    await fillWithRandomRows(migrator);
    await writeArchive(migrator, whole, new Date(0));
  });
});
afterAll(async () => {
  await source.drop();
  rmSync(folder, { recursive: true });
});

/** Two companies with customers, tools and refused entries of random content: text, arrays, numbers, JSON, bytes, moments. */
async function fillWithRandomRows(migrator: Client) {
  const text = fc
    .oneof(fc.constantFrom(...AWKWARD), fc.string({ unit: "grapheme", maxLength: 60 }))
    .map((s) => s.replaceAll("\0", ""));
  const row = fc.record({
    tenant: fc.constantFrom(0, 1),
    id: fc.uuid(),
    text,
    ratings: fc.subarray(["A1", "A2L", "A3", "B1"]),
    number: fc.double({ min: 1e-300, max: 1e300, noNaN: true }),
    json: fc.jsonValue().map((value) => JSON.stringify(value).replaceAll("\\u0000", "")),
    bytes: fc.uint8Array({ minLength: 32, maxLength: 32 }),
    at: fc.date({ min: new Date(0), max: new Date("2100-01-01"), noInvalidDate: true }),
  });
  const companies = ["11111111-1111-4111-8111-111111111111", "22222222-2222-4222-8222-222222222222"];
  for (const [index, id] of companies.entries()) {
    await migrator.query("insert into gate.company (id, slug) values ($1, $2)", [id, `company-${index}`]);
    await migrator.query("insert into company (tenant_id, name, time_zone) values ($1, 'One', 'UTC')", [id]);
    await migrator.query(
      "insert into member (tenant_id, person_id, name, email, roles) values ($1, $1, 'M', 'm@example.org', '{owner}')",
      [id],
    );
  }
  for (const made of fc.sample(row, { seed: 20_260_101, numRuns: ROWS })) {
    const { id, text: note, ratings, number, json, bytes, at } = made;
    const tenant = companies[made.tenant];
    await migrator.query("insert into customer (tenant_id, id, name, note, created_at) values ($1, $2, 'C', $3, $4)", [
      tenant,
      id,
      note,
      at,
    ]);
    await migrator.query(
      "insert into tool (tenant_id, id, kind, name, rated_for, resolution) values ($1, $2, 'pump', 'P', $3, $4)",
      [tenant, id, ratings, number],
    );
    await migrator.query(
      `insert into quarantine (tenant_id, id, person_id, reason, detail, raw, raw_digest) values ($1, $2, $1, 'r', $3, $4, $5)
       on conflict do nothing`,
      [tenant, id, json, note, Buffer.from(bytes)],
    );
  }
  await migrator.query("select setval(pg_get_serial_sequence('entry', 'received_seq'), 4711)");
}

/** One digest a table, over all its rows. */
async function contentOf(client: Client): Promise<Record<string, string>> {
  const content: Record<string, string> = {};
  for (const { table } of await listTables(client)) {
    const { rows } = await client.query(
      `select count(*) || ' ' || coalesce(md5(string_agg(t::text, '|' order by t::text)), '') as d from ${table} t`,
    );
    content[table] = rows[0].d;
  }
  return content;
}

async function restored<T>(file: string, look: (migrator: Client) => Promise<T>): Promise<T> {
  const target = await freshDatabase();
  try {
    return await withConnection(target.migratorUrl, async (migrator) => {
      await readArchive(migrator, file);
      return look(migrator);
    });
  } finally {
    await target.drop();
  }
}

/** What a restore of these bytes fails with, and whether it left the target empty. */
async function refusalOf(bytes: Buffer): Promise<{ code: unknown; empty: boolean }> {
  const file = join(folder, "hurt");
  writeFileSync(file, bytes);
  const target = await freshDatabase();
  try {
    return await withConnection(target.migratorUrl, async (migrator) => {
      const code = await readArchive(migrator, file).then(
        () => "restored",
        (error) => error.code ?? error,
      );
      const content = Object.values(await contentOf(migrator));
      return { code, empty: content.every((digest) => digest.startsWith("0 ")) };
    });
  } finally {
    await target.drop();
  }
}

describe("a backup", () => {
  test("restored elsewhere has every row of every table and the positions of the sequences", async () => {
    const before = await withConnection(source.migratorUrl, contentOf);
    expect(before["public.customer"]).toMatch(new RegExp(`^${ROWS} `));
    expect(await restored(whole, contentOf)).toEqual(before);
    const positions = await restored(whole, listSequences);
    expect(positions).toContainEqual({ name: "public.entry_received_seq_seq", value: "4711" });
  });

  test("restored elsewhere has its tables counted, so that the first pages are planned by what is there", async () => {
    const counted = (migrator: Client) =>
      migrator.query<{ rows: number }>(
        "select reltuples as rows from pg_class where oid = 'public.customer'::regclass",
      );
    expect((await restored(whole, counted)).rows).toEqual([{ rows: ROWS }]);
  });

  test("is readable by its owner alone", () => {
    expect(statSync(whole).mode & 0o777).toBe(0o600);
  });

  test("shows one moment: a row committed while it runs is not in it", async () => {
    const file = join(folder, "moment");
    const before = await withConnection(source.migratorUrl, contentOf);
    await withConnection(source.migratorUrl, async (writer) => {
      await writer.query("begin; lock table quarantine in access exclusive mode");
      const backup = withConnection(source.migratorUrl, (migrator) => writeArchive(migrator, file, new Date(0)));
      await untilSomebodyWaits(writer);
      await writer.query(
        "insert into quarantine select tenant_id, gen_random_uuid(), person_id, null, 'late', '{}', 'late', sha256('late') from quarantine limit 1",
      );
      await writer.query("commit");
      await backup;
    });
    expect(await restored(file, contentOf)).toEqual(before);
    expect(await withConnection(source.migratorUrl, contentOf)).not.toEqual(before);
  });
});

async function untilSomebodyWaits(client: Client) {
  for (;;) {
    const { rowCount } = await client.query(
      "select from pg_locks where not granted and relation = 'quarantine'::regclass",
    );
    if (rowCount) return;
  }
}

describe("a restore is refused and leaves nothing behind", () => {
  test.each([0.01, 0.1, 0.2, 0.35, 0.5, 0.65, 0.8, 0.95])("when a byte is changed at %d of the file", async (place) => {
    const bytes = Buffer.from(readFileSync(whole));
    const at = Math.floor(bytes.length * place);
    bytes[at] = bytes[at]! ^ 0x55;
    const { code, empty } = await refusalOf(bytes);
    expect(["damaged", "cut-short", "not-an-archive", "other-version"]).toContain(code); // its beginning names the migrations
    expect(empty).toBe(true);
  });

  test.each([0.02, 0.5, 0.999])("when the file ends at %d of its length", async (place) => {
    const bytes = readFileSync(whole);
    expect(await refusalOf(bytes.subarray(0, Math.floor(bytes.length * place)))).toEqual({
      code: "cut-short",
      empty: true,
    });
  });

  test("when a value was changed and the file packed again", async () => {
    const plain = gunzipSync(readFileSync(whole));
    plain.write("m@example.net", plain.indexOf("m@example.org"));
    expect(await refusalOf(gzipSync(plain))).toEqual({ code: "damaged", empty: true });
  });

  test("when the file is something else", async () => {
    expect(await refusalOf(Buffer.from("customer,site\n"))).toEqual({ code: "not-an-archive", empty: true });
  });

  test("into a database that has rows", async () => {
    await withConnection(source.migratorUrl, async (migrator) => {
      await expect(readArchive(migrator, whole)).rejects.toMatchObject({ code: "not-empty" });
    });
  });

  test("into a database of another version", async () => {
    const target = await freshDatabase();
    await withConnection(target.migratorUrl, async (migrator) => {
      await migrator.query("update _prisma_migrations set checksum = 'other'");
      await expect(readArchive(migrator, whole)).rejects.toMatchObject({ code: "other-version" });
    });
    await target.drop();
  });
});
