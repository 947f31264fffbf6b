import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { TestProject } from "vitest/node";
import { prepareDatabase } from "@/lib/embedded/roles";
import { startEmbedded } from "@/lib/embedded/server";
import { migrateDatabase } from "@/prisma/migrate";

/** What a test needs to make databases of its own; the template is migrated and nobody connects to it again. */
export interface DatabaseServer {
  readonly adminUrl: string;
  readonly templateUrls: { readonly databaseUrl: string; readonly migratorUrl: string };
}

declare module "vitest" {
  export interface ProvidedContext {
    databaseServer: DatabaseServer;
  }
}

export const TEMPLATE = "dryhold_template";

/** One embedded server in a temporary folder for the whole run, with one migrated database to copy from. */
export default async function setup(project: TestProject) {
  const dataFolder = mkdtempSync(join(tmpdir(), "dryhold-test-"));
  const projectFolder = fileURLToPath(new URL("../..", import.meta.url));
  const settings = { fsync: "off", synchronous_commit: "off", full_page_writes: "off" }; // thrown away after the run
  const server = await startEmbedded({ projectFolder, dataFolder, settings });
  const stop = async () => {
    await server.release();
    rmSync(dataFolder, { recursive: true, force: true });
  };
  try {
    const templateUrls = await prepareDatabase(server, TEMPLATE);
    await migrateDatabase(templateUrls);
    project.provide("databaseServer", { adminUrl: server.superuserUrl("postgres"), templateUrls });
  } catch (error) {
    await stop();
    throw error;
  }
  return stop;
}
