import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Client } from "pg";
import { prepareDatabase } from "@/lib/embedded/roles";
import { startEmbedded } from "@/lib/embedded/server";
import { migrateDatabase } from "@/prisma/migrate";

/**
 * Runs `work` on a migrated database of its own, with a client whose rows fire no triggers: what they would keep is planted with the
 * rest, since a hundred thousand rows one by one would take the measurement's time.
 */
export async function withBenchDatabase<T>(work: (client: Client, databaseUrl: string) => Promise<T>): Promise<T> {
  const dataFolder = mkdtempSync(join(tmpdir(), "dryhold-bench-"));
  const server = await startEmbedded({ projectFolder: process.cwd(), dataFolder, settings: { fsync: "off" } });
  try {
    const urls = await prepareDatabase(server);
    await migrateDatabase(urls);
    const client = new Client({ connectionString: server.superuserUrl("dryhold") });
    await client.connect();
    try {
      await client.query("set session_replication_role = replica");
      return await work(client, urls.databaseUrl);
    } finally {
      await client.end(); // before the server: else its goodbye hides what failed
    }
  } finally {
    await server.release();
    rmSync(dataFolder, { recursive: true, force: true });
  }
}
