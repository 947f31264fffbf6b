import { randomBytes } from "node:crypto";
import { Client } from "pg";
import { inject } from "vitest";
import type { DatabaseUrls } from "@/lib/embedded/roles";
import { TEMPLATE } from "./setup";

export interface FreshDatabase extends DatabaseUrls {
  readonly name: string;
  /** The server's own superuser in this database; for looking and planting, never for what is tested. */
  readonly adminUrl: string;
  drop(): Promise<void>;
}

/** A database of the caller's own: a copy of the migrated template, or an empty one with the same two roles. */
export async function freshDatabase(content: "migrated" | "empty" = "migrated"): Promise<FreshDatabase> {
  const { adminUrl, templateUrls } = inject("databaseServer");
  const name = `test_${randomBytes(6).toString("hex")}`;
  const source = content === "migrated" ? TEMPLATE : "template1";
  await asAdmin(adminUrl, `create database ${name} owner dryhold_migrator template ${source}`);
  const inDatabase = (url: string) => Object.assign(new URL(url), { pathname: `/${name}` }).href;
  return {
    name,
    adminUrl: inDatabase(adminUrl),
    databaseUrl: inDatabase(templateUrls.databaseUrl),
    migratorUrl: inDatabase(templateUrls.migratorUrl),
    drop: () => asAdmin(adminUrl, `drop database ${name} with (force)`),
  };
}

/** Runs `work` with a connection to the URL and closes it. */
export async function withConnection<T>(url: string, work: (client: Client) => Promise<T>): Promise<T> {
  const client = new Client({ connectionString: url });
  await client.connect();
  try {
    return await work(client);
  } finally {
    await client.end();
  }
}

function asAdmin(url: string, sql: string): Promise<void> {
  return withConnection(url, async (client) => {
    await client.query(sql);
  });
}
