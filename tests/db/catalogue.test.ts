import type { Client } from "pg";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type FreshDatabase, freshDatabase, withConnection } from "./fresh-database";
import { listEscapes } from "./list-escapes";

let database: FreshDatabase;
beforeAll(async () => {
  database = await freshDatabase();
});
afterAll(() => database.drop());

/** The escapes found while `sql` has been run by the migrator; everything is rolled back. */
function escapesWith(sql: string): Promise<readonly string[]> {
  return withConnection(database.adminUrl, async (client: Client) => {
    await client.query("begin; set local role dryhold_migrator");
    await client.query(sql);
    await client.query("reset role");
    const escapes = await listEscapes(client);
    await client.query("rollback");
    return escapes;
  });
}

test("nothing in the database is out of reach of row-level security", async () => {
  expect(await withConnection(database.migratorUrl, listEscapes)).toEqual([]);
});

const HELD = `alter table planted enable row level security; alter table planted force row level security;
  create policy tenant_isolation on planted using (tenant_id = (select app_tenant())) with check (tenant_id = (select app_tenant()));
  grant select, insert on planted to dryhold_app;`;
const SOUND = `create table planted (tenant_id uuid not null, id uuid not null, primary key (tenant_id, id)); ${HELD}`;
const definer = (name: string, options: string) =>
  `create function ${name}() returns int language sql security definer ${options} as 'select 1';`;

describe("a planted escape is found", () => {
  test("a sound table is none", async () => {
    expect(await escapesWith(SOUND)).toEqual([]);
  });

  test.each([
    ["table without tenant", "create table planted (id uuid primary key)", "planted: row-level security is not forced"],
    [
      "table without tenant column",
      "create table planted (id uuid primary key)",
      "planted: tenant_id is not a required uuid",
    ],
    [
      "key without tenant first",
      `create table planted (id uuid, tenant_id uuid, primary key (id, tenant_id));${HELD}`,
      "planted: unique index planted_pkey does not begin with tenant_id",
    ],
    ["no primary key", `create table planted (tenant_id uuid not null);${HELD}`, "planted: no primary key"],
    [
      "unique without tenant",
      `${SOUND} create unique index planted_once on planted (id);`,
      "planted: unique index planted_once does not begin with tenant_id",
    ],
    [
      "unique over an expression",
      `${SOUND} create unique index planted_once on planted (lower(id::text));`,
      "planted: unique index planted_once does not begin with tenant_id",
    ],
    [
      "foreign key without tenant",
      `${SOUND} alter table planted add constraint out foreign key (id) references gate.person (id);`,
      "planted: foreign key out does not begin with tenant_id on both sides",
    ],
    [
      "policies not forced on the owner",
      `${SOUND} alter table planted no force row level security;`,
      "planted: row-level security is not forced",
    ],
    ["no policy", `${SOUND} drop policy tenant_isolation on planted;`, "planted: no policy"],
    [
      "a second, wider policy",
      `${SOUND} create policy wide on planted for select using (true);`,
      "planted: policy wide is not the tenant policy",
    ],
    [
      "a policy on one role only",
      `drop policy tenant_isolation on customer; create policy mine on customer to dryhold_app using (tenant_id = (select app_tenant())) with check (true);`,
      "customer: policy mine is not the tenant policy",
    ],
    [
      "a table in a schema of its own",
      "create schema aside; create table aside.planted (id int);",
      "aside.planted: row-level security is not forced",
    ],
    [
      "an unnamed table before the tenant",
      "create table gate.planted (id uuid primary key);",
      "gate.planted: row-level security is not forced",
    ],
    [
      "a view with its owner's rights",
      "create view planted as select * from customer;",
      "public.planted: view is not security_invoker",
    ],
    [
      "a view that says no",
      "create view planted with (security_invoker = false) as select * from customer;",
      "public.planted: view is not security_invoker",
    ],
    [
      "a materialized view",
      "create materialized view planted as select * from customer;",
      "public.planted: materialized view",
    ],
    [
      "an unnamed definer function",
      definer("public.planted", "set search_path = ''"),
      "public.planted: security definer outside the named list",
    ],
    [
      "an unnamed definer function in the gate",
      definer("gate.planted", "set search_path = ''"),
      "gate.planted: security definer outside the named list",
    ],
    [
      "a definer function with a loose path",
      definer("gate.planted", ""),
      "gate.planted: security definer with a search_path of the caller",
    ],
    [
      "a definer function for everybody",
      definer("gate.planted", ""),
      "gate.planted: security definer that everybody may run",
    ],
    [
      "a look-up gone from the list",
      "drop function gate.end_all_sessions(uuid);",
      "gate.end_all_sessions: on the named list, but not in the database",
    ],
    [
      "a second function of a look-up's name",
      "create function gate.check_session(text) returns int language sql security definer set search_path = '' as 'select 1';",
      "gate.check_session: more than one function of a named look-up's name",
    ],
    [
      "a right on a table before the tenant",
      "grant select on gate.person to dryhold_app;",
      "gate.person: the application may select",
    ],
    [
      "a right on one column of it",
      "grant select (email) on gate.person to dryhold_app;",
      "gate.person.email: the application has a right on a single column",
    ],
    ["changing the log", "grant update on entry to dryhold_app;", "public.entry: the application may update"],
    ["deleting a customer", "grant delete on customer to dryhold_app;", "public.customer: the application may delete"],
    ["emptying a table", "grant truncate on customer to dryhold_app;", "public.customer: the application may truncate"],
    [
      "reading the list of migrations",
      "grant select on _prisma_migrations to dryhold_app;",
      "public._prisma_migrations: the application may select",
    ],
    ["a right of everybody", "grant select on customer to public;", "public.customer: everybody has a right on it"],
    ["making tables", "grant create on schema public to dryhold_app;", "dryhold_app: may create in schema public"],
    [
      "rights on what comes later",
      "alter default privileges grant select on tables to dryhold_app;",
      "default privileges: give the application or everybody rights on what is made later",
    ],
  ])("%s", async (_what, sql, found) => {
    expect(await escapesWith(sql)).toContain(found);
  });

  test("an application role above the policies, or a member of one that is", async () => {
    await withConnection(database.adminUrl, async (client) => {
      await client.query("begin; alter role dryhold_app bypassrls; grant dryhold_migrator to dryhold_app");
      const escapes = await listEscapes(client);
      await client.query("rollback");
      expect(escapes).toContain("dryhold_app: has rights above row-level security");
      expect(escapes).toContain("dryhold_app: is a member of dryhold_migrator");
    });
  });
});
