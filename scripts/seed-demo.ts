import { Client } from "pg";
import type { DatabaseUrls } from "@/lib/embedded/roles";
import { mustRun } from "./step";

/** Whether nobody uses this database yet. */
export async function hasNoCompany({ migratorUrl }: DatabaseUrls): Promise<boolean> {
  const client = new Client({ connectionString: migratorUrl });
  await client.connect();
  try {
    const { rows } = await client.query("select 1 from gate.company limit 1");
    return rows.length === 0;
  } finally {
    await client.end();
  }
}

/** Fills the database with the invented demo company, in a process of its own: the seed uses the app's server-only modules. */
export async function seedDemo({ databaseUrl, migratorUrl }: DatabaseUrls): Promise<void> {
  await mustRun(process.execPath, ["--conditions=react-server", "--import", "tsx", "prisma/seed.ts"], {
    env: { DATABASE_URL: databaseUrl, MIGRATOR_URL: migratorUrl },
  });
}
