import "server-only";
import { PrismaPg } from "@prisma/adapter-pg";
import { databaseUrl } from "@/lib/env";
import { PrismaClient } from "./generated/client";

const held = globalThis as { dryholdPrisma?: PrismaClient };

/** The one client. Only tenant.ts and gate.ts may import it: everything else goes through their wrappers. */
export function prismaClient(): PrismaClient {
  held.dryholdPrisma ??= new PrismaClient({
    adapter: new PrismaPg({ connectionString: databaseUrl(), max: 10 }),
  });
  return held.dryholdPrisma;
}
