import { defineConfig } from "prisma/config";

// `generate` and `validate` never run the schema engine, but Prisma fetches it before any command unless a path is given.
process.env.PRISMA_SCHEMA_ENGINE_BINARY ??= process.execPath;

export default defineConfig({
  schema: "prisma/schema.prisma",
  migrations: { path: "prisma/migrations" },
});
