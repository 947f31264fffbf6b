import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { buildServiceWorker } from "./build-service-worker";
import { fingerprintOf } from "./fingerprint";
import { mustRun, step } from "./step";

const CLIENT_MARK = "lib/db/generated/made-from";
const BUILD_MARK = ".next/built-from";

/** Generates the typed database client and builds the app, each only when what it is made from has changed. */
export async function buildApp({ always = false } = {}): Promise<void> {
  await generateClient();
  const source = fingerprintOf(".", "prisma/schema.prisma");
  if (!always && isMadeFrom(BUILD_MARK, source)) {
    console.log("  The app is built already.");
    return;
  }
  rmSync(BUILD_MARK, { force: true });
  await step("Building the app (about a minute, only after changes)", () =>
    mustRun(process.execPath, ["node_modules/next/dist/bin/next", "build"], {
      logFile: ".cache/build.log",
      env: { NODE_ENV: "production", NEXT_TELEMETRY_DISABLED: "1" },
    }),
  );
  await buildServiceWorker();
  writeFileSync(BUILD_MARK, source);
}

export async function generateClient(): Promise<void> {
  const source = fingerprintOf("prisma/schema.prisma");
  if (isMadeFrom(CLIENT_MARK, source)) return;
  await step("Generating the database client", () =>
    mustRun(process.execPath, ["node_modules/prisma/build/index.js", "generate"], { logFile: ".cache/generate.log" }),
  );
  mkdirSync("lib/db/generated", { recursive: true });
  writeFileSync(CLIENT_MARK, source);
}

function isMadeFrom(mark: string, source: string): boolean {
  return existsSync(mark) && readFileSync(mark, "utf8") === source;
}
