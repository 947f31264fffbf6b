import "server-only";
import { PrismaPg } from "@prisma/adapter-pg";
import { Pool } from "pg";
import { databaseUrl } from "@/lib/env";
import { PrismaClient } from "./generated/client";

const held = globalThis as { dryholdPrisma?: PrismaClient; dryholdStatements?: Pool };

/** The one client. Only tenant.ts and gate.ts may import it: everything else goes through their wrappers. */
export function prismaClient(): PrismaClient {
  held.dryholdPrisma ??= new PrismaClient({
    adapter: new PrismaPg({ connectionString: databaseUrl(), max: 10 }),
  });
  return held.dryholdPrisma;
}

/** A few connections for single statements that must cost one round trip. Only tenant.ts may import it. */
export function statementPool(): Pool {
  if (held.dryholdStatements === undefined) {
    held.dryholdStatements = new Pool({ connectionString: databaseUrl(), max: 4 });
    held.dryholdStatements.on("error", () => {}); // an idle connection broke; the next statement opens another
  }
  return held.dryholdStatements;
}

/** Leaves the database: every connection of this process is closed, and made again if asked. */
export async function disconnect(): Promise<void> {
  const { dryholdPrisma, dryholdStatements } = held;
  delete held.dryholdStatements;
  await dryholdPrisma?.$disconnect();
  await dryholdStatements?.end();
}
