import { Client } from "pg";
import { keptSecret } from "./secrets";
import { databaseUrl, type EmbeddedServer } from "./server";

/** The two ways into one database: the application's role owns nothing, the migrator's owns everything in it. */
export interface DatabaseUrls {
  readonly databaseUrl: string;
  readonly migratorUrl: string;
}

export const APP_ROLE = "dryhold_app";
export const MIGRATOR_ROLE = "dryhold_migrator";

/**
 * Makes the two roles and the database on an embedded server where they are missing, and returns their URLs.
 *
 * The migrator bypasses policies (migrations, backfills and backups see all companies) but is no superuser.
 */
export async function prepareDatabase(server: EmbeddedServer, database = "dryhold"): Promise<DatabaseUrls> {
  const appPassword = keptSecret(server.dataFolder, "app");
  const migratorPassword = keptSecret(server.dataFolder, "migrator");
  const client = new Client({ connectionString: server.superuserUrl("postgres") });
  await client.connect();
  try {
    await client.query("select pg_advisory_lock(8035711)"); // two processes may prepare at once
    await makeRole(client, APP_ROLE, appPassword, "nobypassrls");
    await makeRole(client, MIGRATOR_ROLE, migratorPassword, "bypassrls");
    const found = await client.query("select 1 from pg_database where datname = $1", [database]);
    if (found.rowCount === 0) {
      await client.query(`create database ${client.escapeIdentifier(database)} owner ${MIGRATOR_ROLE}`);
    }
  } finally {
    await client.end();
  }
  return {
    databaseUrl: databaseUrl(server.port, APP_ROLE, appPassword, database),
    migratorUrl: databaseUrl(server.port, MIGRATOR_ROLE, migratorPassword, database),
  };
}

async function makeRole(client: Client, role: string, password: string, policies: "bypassrls" | "nobypassrls") {
  const found = await client.query("select 1 from pg_roles where rolname = $1", [role]);
  if (found.rowCount !== 0) return;
  const rights = `login nosuperuser nocreatedb nocreaterole ${policies}`;
  await client.query(`create role ${role} ${rights} password ${client.escapeLiteral(password)}`);
}
