import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import { Prisma } from "@/lib/db/generated/client";
import { preTenantTables } from "@/lib/db/pre-tenant-list";
import { type FreshDatabase, freshDatabase, withConnection } from "./fresh-database";

let database: FreshDatabase;
beforeAll(async () => {
  database = await freshDatabase();
});
afterAll(() => database.drop());

/** "table.column type", with "?" where it may be empty; and each table's primary key in order. */
interface Shape {
  columns: string[];
  keys: string[];
}

const native: Readonly<Record<string, string>> = {
  "db.Uuid": "uuid",
  "db.Date": "date",
  "db.Timestamptz(6)": "timestamp with time zone",
  "db.Timestamptz(3)": "timestamp(3) with time zone",
};
const scalar: Readonly<Record<string, string>> = {
  String: "text",
  Int: "integer",
  BigInt: "bigint",
  Float: "double precision",
  Boolean: "boolean",
  Json: "jsonb",
  Bytes: "bytea",
};

/** What the schema file says of the database. Its form is our own: one field a line, names as Prisma formats them. */
function shapeOfSchema(source: string): Shape & { models: string[] } {
  const shape = { columns: [] as string[], keys: [] as string[], models: [] as string[] };
  for (const [, model, body] of source.matchAll(/^model (\w+) \{\n(.*?)^\}/gms)) {
    const table = /@@map\("(\w+)"\)/.exec(body!)?.[1] ?? model!;
    shape.models.push(model!);
    const columnOf = new Map<string, string>();
    for (const line of body!.split("\n")) {
      const field = /^ {2}(\w+) +(\w+)(\[\])?(\?)?(?: +(.*))?$/.exec(line);
      if (!field) continue;
      const [, name, type, list = "", optional = "", rest = ""] = field;
      const nativeName = /@(db\.\w+(?:\(\d+\))?)/.exec(rest)?.[1];
      const sqlType = nativeName ? native[nativeName] : scalar[type!];
      if (nativeName && !sqlType) throw new Error(`${model}.${name}: ${nativeName} is not known to this test`);
      if (!sqlType) continue; // a relation
      const column = /@map\("(\w+)"\)/.exec(rest)?.[1] ?? name!;
      columnOf.set(name!, column);
      shape.columns.push(`${table}.${column} ${sqlType}${list}${optional}`);
    }
    const key = /@@id\(\[([\w, ]+)\]\)/.exec(body!)?.[1]?.split(", ") ?? [/^ {2}(\w+) .*@id/m.exec(body!)?.[1]];
    shape.keys.push(`${table} (${key.map((name) => columnOf.get(name ?? "") ?? "?").join(", ")})`);
  }
  return shape;
}

function shapeOfDatabase(): Promise<Shape> {
  const tables = `pg_class c join pg_namespace n on n.oid = c.relnamespace where c.relkind in ('r', 'p') and n.nspname !~ '^pg_'
    and n.nspname <> 'information_schema' and n.nspname || '.' || c.relname <> all ($1) and c.relname <> '_prisma_migrations'`;
  return withConnection(database.migratorUrl, async (client) => {
    const columns = await client.query<{ line: string }>(
      `select relname || '.' || attname || ' ' || format_type(atttypid, atttypmod) || case when attnotnull then '' else '?' end as line
       from pg_attribute join (select c.oid, c.relname from ${tables}) t on attrelid = t.oid where attnum > 0 and not attisdropped`,
      [preTenantTables],
    );
    const keys = await client.query<{ line: string }>(
      `select relname || ' (' || (select string_agg(attname, ', ' order by place) from unnest(conkey) with ordinality k(num, place)
          join pg_attribute on attrelid = t.oid and attnum = num) || ')' as line
       from pg_constraint join (select c.oid, c.relname from ${tables}) t on conrelid = t.oid where contype = 'p'`,
      [preTenantTables],
    );
    return { columns: columns.rows.map(({ line }) => line), keys: keys.rows.map(({ line }) => line) };
  });
}

const source = readFileSync(fileURLToPath(new URL("../../prisma/schema.prisma", import.meta.url)), "utf8");

test("the schema the queries are typed by is the database the migrations make", async () => {
  const [written, made] = [shapeOfSchema(source), await shapeOfDatabase()];
  expect(made.columns.length).toBeGreaterThan(100);
  expect(written.columns.sort()).toEqual(made.columns.sort());
  expect(written.keys.sort()).toEqual(made.keys.sort());
});

test("the generated client has every model of the schema", () => {
  expect(Object.keys(Prisma.ModelName).sort()).toEqual(shapeOfSchema(source).models.sort());
});

test.each([
  ["another type", "  number    String    @default", "  number    Int       @default"],
  ["a column that may be empty", "  kind      String\n  number", "  kind      String?\n  number"],
  ["a column that is not there", "  kind      String\n", "  kind      String\n  colour    String\n"],
  ["another key", "@@id([tenantId, id])", "@@id([id, tenantId])"],
])("a planted difference is found: %s", async (_what, from, to) => {
  const planted = source.replace(from, to);
  expect(planted).not.toBe(source);
  const [written, made] = [shapeOfSchema(planted), await shapeOfDatabase()];
  expect([written.columns.sort(), written.keys.sort()]).not.toEqual([made.columns.sort(), made.keys.sort()]);
});
