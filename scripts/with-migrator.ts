import { Client } from "pg";
import { openDatabase } from "@/lib/embedded/database";
import { commandEnv } from "@/lib/env";
import { migrateDatabase } from "@/prisma/migrate";

/** Runs `work` as the migrator on this installation's database, brought up to date, and leaves it again. */
export async function withMigrator<T>(work: (migrator: Client) => Promise<T>): Promise<T> {
  const database = await openDatabase({ projectFolder: process.cwd(), ...commandEnv() });
  const migrator = new Client({ connectionString: database.migratorUrl });
  try {
    await migrateDatabase(database);
    await migrator.connect();
    return await work(migrator);
  } finally {
    await migrator.end();
    await database.release();
  }
}
