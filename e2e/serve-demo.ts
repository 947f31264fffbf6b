import { randomBytes } from "node:crypto";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { freePort } from "@/lib/embedded/launch";
import { prepareDatabase } from "@/lib/embedded/roles";
import { startEmbedded } from "@/lib/embedded/server";
import { migrateDatabase } from "@/prisma/migrate";
import { seedDemo } from "@/scripts/seed-demo";
import { serveApp } from "@/scripts/serve-app";

/** The built app with the demo company, on a database and a port of this run; gone when it ends. */
export default async function serveDemo() {
  const dataFolder = mkdtempSync(join(tmpdir(), "dryhold-e2e-"));
  const settings = { fsync: "off", synchronous_commit: "off", full_page_writes: "off" };
  const server = await startEmbedded({ projectFolder: process.cwd(), dataFolder, settings });
  const end = async () => {
    await server.release();
    rmSync(dataFolder, { recursive: true, force: true });
  };
  try {
    const urls = await prepareDatabase(server);
    await migrateDatabase(urls);
    await seedDemo(urls);
    const port = await freePort();
    const publicUrl = `http://localhost:${port}`;
    const secret = randomBytes(32).toString("base64url");
    const { databaseUrl } = urls;
    const app = await serveApp({ mode: "start", host: "127.0.0.1", port, databaseUrl, secret, publicUrl, quiet: true });
    process.env.E2E_BASE_URL = publicUrl; // the configuration is read again in each worker
    process.env.E2E_DATABASE_URL = urls.migratorUrl; // for looking at what a request left behind
    return async () => {
      await app.stop();
      await end();
    };
  } catch (error) {
    await end();
    throw error;
  }
}
