import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL(".", import.meta.url));

export default defineConfig({
  resolve: {
    alias: {
      "@": root.replace(/\/$/, ""),
      "server-only": fileURLToPath(new URL("./tests/server-only.ts", import.meta.url)),
    },
  },
  test: {
    maxWorkers: 2, // vitest leaves one core idle; on the two of the smallest machine that is half of it
    projects: [
      {
        extends: true,
        test: {
          name: "unit",
          include: ["tests/**/*.test.{ts,tsx}"],
          exclude: ["tests/db/**", "tests/faults/**"],
          testTimeout: 120_000,
        },
      },
      {
        extends: true,
        test: {
          name: "db",
          include: ["tests/{db,faults}/**/*.test.ts"],
          globalSetup: ["tests/db/setup.ts"],
          testTimeout: 60_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
