import { createHash } from "node:crypto";
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";

/** What never goes into the built app, wherever it lies at the top of the project. */
const OUTSIDE = new Set([
  "node_modules",
  "prisma",
  "tests",
  "e2e",
  "bench",
  "scripts",
  "docs",
  "test-results",
  "playwright-report",
]);
const NOT_SOURCE = /^\.|\.md$|\.tsbuildinfo$|^next-env\.d\.ts$|^(vitest|playwright)\.config\.ts$|^biome\.json$/;

/** Digest of names and contents of everything the app is built from; folders are walked. */
export function fingerprintOf(...paths: readonly string[]): string {
  const digest = createHash("sha256").update(process.version);
  for (const file of paths.flatMap(listSources)) digest.update(`\0${file}\0`).update(readFileSync(file));
  return digest.digest("hex");
}

function listSources(path: string): string[] {
  if (!statSync(path).isDirectory()) return [path];
  const names = readdirSync(path).sort();
  return names
    .filter(
      (name) =>
        !NOT_SOURCE.test(name) && !(path === "." && OUTSIDE.has(name)) && join(path, name) !== "lib/db/generated",
    )
    .flatMap((name) => listSources(join(path, name)));
}
