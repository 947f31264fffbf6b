import { fileURLToPath } from "node:url";
import { Client } from "pg";
import { openDatabase } from "@/lib/embedded/database";
import type { DatabaseUrls } from "@/lib/embedded/roles";
import { commandEnv } from "@/lib/env";
import { ensureAppRole, requireHarmlessAppLogin } from "./app-role";
import { applyMigrations } from "./apply-migrations";

const projectFolder = fileURLToPath(new URL("..", import.meta.url));
export const MIGRATIONS_FOLDER = fileURLToPath(new URL("migrations", import.meta.url));

/** Brings a database up to date: the application's role, then the migrations. Returns the names applied. */
export async function migrateDatabase(urls: DatabaseUrls, folder = MIGRATIONS_FOLDER): Promise<readonly string[]> {
  const migrator = new Client({ connectionString: urls.migratorUrl });
  await migrator.connect();
  try {
    await ensureAppRole(migrator, urls.databaseUrl);
    const applied = await applyMigrations(migrator, folder);
    await requireHarmlessAppLogin(urls.databaseUrl);
    return applied;
  } finally {
    await migrator.end();
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const database = await openDatabase({ projectFolder, ...commandEnv() });
  try {
    const applied = await migrateDatabase(database);
    console.log(applied.length > 0 ? `Applied ${applied.join(", ")}.` : "The database is up to date.");
  } finally {
    await database.release();
  }
}
