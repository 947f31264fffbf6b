import { createHash, randomUUID } from "node:crypto";
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { type Client, DatabaseError } from "pg";

/** A migration cannot be applied; the message names the file and, where PostgreSQL says it, the line. */
export class MigrationFailure extends Error {
  override readonly name = "MigrationFailure";
}

export interface Migration {
  readonly name: string;
  readonly file: string;
  readonly sql: string;
  readonly checksum: string;
}

interface AppliedRow {
  readonly migration_name: string;
  readonly checksum: string;
  readonly finished_at: Date | null;
}

// The lock number and the table are those of `prisma migrate deploy`, so that either may be used on one database.
// @source prisma-engines, schema-engine/connectors/sql-schema-connector: ADVISORY_LOCK_KEY 72707369, table _prisma_migrations
const ADVISORY_LOCK = 72707369;
const TABLE = `create table if not exists _prisma_migrations (
  id                  varchar(36) primary key not null,
  checksum            varchar(64) not null,
  finished_at         timestamptz,
  migration_name      varchar(255) not null,
  logs                text,
  rolled_back_at      timestamptz,
  started_at          timestamptz not null default now(),
  applied_steps_count integer not null default 0
)`;

/**
 * Applies the migrations not applied yet, in order of their names, each in a transaction of its own.
 *
 * Refuses when an applied one has since been changed or has gone. Two runs at once wait for each other.
 * @returns the names applied by this run
 * @throws MigrationFailure
 */
export async function applyMigrations(client: Client, folder: string): Promise<readonly string[]> {
  const migrations = await readMigrations(folder);
  await client.query("select pg_advisory_lock($1)", [ADVISORY_LOCK]);
  try {
    await client.query("set client_min_messages = warning");
    await client.query(TABLE);
    const pending = await findPending(client, migrations);
    for (const migration of pending) await apply(client, migration);
    return pending.map(({ name }) => name);
  } finally {
    await client.query("select pg_advisory_unlock($1)", [ADVISORY_LOCK]);
  }
}

export async function readMigrations(folder: string): Promise<readonly Migration[]> {
  const entries = await readdir(folder, { withFileTypes: true });
  const names = entries.filter((entry) => entry.isDirectory()).map((entry) => entry.name);
  return Promise.all(
    names.sort().map(async (name) => {
      const file = join(folder, name, "migration.sql");
      const sql = await readFile(file, "utf8");
      return { name, file, sql, checksum: createHash("sha256").update(sql).digest("hex") };
    }),
  );
}

async function findPending(client: Client, migrations: readonly Migration[]): Promise<readonly Migration[]> {
  const { rows } = await client.query<AppliedRow>(
    "select migration_name, checksum, finished_at from _prisma_migrations where rolled_back_at is null",
  );
  const byName = new Map(migrations.map((migration) => [migration.name, migration]));
  for (const row of rows) {
    const migration = byName.get(row.migration_name);
    if (!migration) throw new MigrationFailure(`${row.migration_name} was applied to this database but is not here.`);
    if (!row.finished_at) throw new MigrationFailure(`${migration.file} began on this database and never finished.`);
    if (row.checksum !== migration.checksum) {
      throw new MigrationFailure(`${migration.file} was changed after it was applied; write a new migration instead.`);
    }
  }
  const applied = new Set(rows.map((row) => row.migration_name));
  return migrations.filter(({ name }) => !applied.has(name));
}

async function apply(client: Client, { name, file, sql, checksum }: Migration) {
  const startedAt = new Date();
  await client.query("begin");
  try {
    await client.query(sql);
    await client.query(
      `insert into _prisma_migrations (id, checksum, migration_name, started_at, finished_at, applied_steps_count)
       values ($1, $2, $3, $4, now(), 1)`,
      [randomUUID(), checksum, name, startedAt],
    );
    await client.query("commit");
  } catch (error) {
    await client.query("rollback").catch(() => {}); // the first error says more
    if (!(error instanceof DatabaseError)) throw error;
    throw new MigrationFailure(`${file}${lineOf(sql, error)}: ${error.message}${error.hint ? ` (${error.hint})` : ""}`);
  }
}

/** ":12:5" for an error whose place PostgreSQL tells as a character count from 1. */
function lineOf(sql: string, { position }: DatabaseError): string {
  if (!position) return "";
  const before = [...sql].slice(0, Number(position) - 1).join("");
  const line = before.split("\n").length;
  return `:${line}:${before.length - before.lastIndexOf("\n")}`;
}
