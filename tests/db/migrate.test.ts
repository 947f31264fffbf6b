import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { migrateDatabase } from "@/prisma/migrate";
import { type FreshDatabase, freshDatabase, withConnection } from "./fresh-database";

let database: FreshDatabase;
let folder: string;

beforeEach(async () => {
  database = await freshDatabase("empty");
  folder = mkdtempSync(join(tmpdir(), "dryhold-migrations-"));
});
afterEach(async () => {
  await database.drop();
  rmSync(folder, { recursive: true });
});

function write(name: string, sql: string) {
  mkdirSync(join(folder, name), { recursive: true });
  writeFileSync(join(folder, name, "migration.sql"), sql);
}

const migrate = () => migrateDatabase(database, folder);
const query = (sql: string) => withConnection(database.migratorUrl, async (client) => (await client.query(sql)).rows);

describe("migrations", () => {
  test("are applied once, in order of their names", async () => {
    write("0002_second", "insert into a values (2)");
    write("0001_first", "create table a (n int); insert into a values (1)");
    expect(await migrate()).toEqual(["0001_first", "0002_second"]);
    expect(await migrate()).toEqual([]);
    expect(await query("select n from a order by n")).toEqual([{ n: 1 }, { n: 2 }]);
  });

  test("that fail leave nothing behind and name the file and the line", async () => {
    write("0001_first", "create table a (n int);\n-- µ counts as one\nselect nothing\n  from b;");
    await expect(migrate()).rejects.toThrow(/0001_first\/migration\.sql:4:8: relation "b" does not exist/);
    expect(await query("select to_regclass('a') as a")).toEqual([{ a: null }]);
    write("0001_first", "create table a (n int)");
    expect(await migrate()).toEqual(["0001_first"]); // a failed one may be mended
  });

  test("that were changed after they were applied are refused", async () => {
    write("0001_first", "create table a (n int)");
    await migrate();
    write("0001_first", "create table a (n bigint)");
    await expect(migrate()).rejects.toThrow(/0001_first\/migration\.sql was changed/);
  });

  test("that are missing here but applied there are refused", async () => {
    write("0001_first", "create table a (n int)");
    await migrate();
    rmSync(join(folder, "0001_first"), { recursive: true });
    write("0002_other", "select 1");
    await expect(migrate()).rejects.toThrow(/0001_first was applied/);
  });

  test("run by several at once are applied by one of them", async () => {
    write("0001_first", "create table a (n int); select pg_sleep(0.2)");
    const runs = await Promise.all([migrate(), migrate(), migrate()]);
    expect(runs.flat()).toEqual(["0001_first"]);
  });
});

describe("the application's login", () => {
  test("is refused when it is above row-level security", async () => {
    write("0001_first", "create table a (n int)");
    const asAdmin = { databaseUrl: database.adminUrl, migratorUrl: database.migratorUrl };
    await expect(migrateDatabase(asAdmin, folder)).rejects.toThrow(/postgres, which can step past row-level security/);
    const asMigrator = { databaseUrl: database.migratorUrl, migratorUrl: database.migratorUrl };
    await expect(migrateDatabase(asMigrator, folder)).rejects.toThrow(/dryhold_migrator, which can step past/);
  });

  test("is refused when it owns a table", async () => {
    write("0001_first", "create table a (n int)");
    await withConnection(database.adminUrl, (admin) =>
      admin.query("create table mine (n int); alter table mine owner to dryhold_app"),
    );
    await expect(migrate()).rejects.toThrow(/dryhold_app, which owns mine/);
  });
});
