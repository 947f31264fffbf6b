import { execFile } from "node:child_process";
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { promisify } from "node:util";
import { afterEach, beforeEach, describe, expect, test } from "vitest";

const run = promisify(execFile);
const PURE = "A pure module imports only";
const LOOKS_UP = "lib never looks up";
const DOOR = "front door";
const AHEAD = "fetches nothing ahead";
const CLIENT = "touch the database client";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "dryhold-rules-"));
  copyFileSync("biome.json", join(folder, "biome.json"));
  copyFileSync("tsconfig.json", join(folder, "tsconfig.json"));
  writeFileSync(join(folder, ".gitignore"), "node_modules/\n");
});
afterEach(() => rmSync(folder, { recursive: true }));

function plant(path: string, source: string) {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), source);
}

/** What this project's own configuration says about the planted files. */
async function complaints(): Promise<string> {
  const biome = join(process.cwd(), "node_modules/@biomejs/biome/bin/biome");
  const args = [biome, "lint", "--reporter=github", "--max-diagnostics=none", "."];
  const { stdout } = await run(process.execPath, args, { cwd: folder }).catch((failed) => failed as { stdout: string });
  return stdout;
}

const importing = (specifier: string) => `import { a } from "${specifier}";\nexport const b = a;\n`;

describe("an import against the direction of the house is caught", () => {
  test.each([
    ["app/(office)/page.tsx", "next/link", AHEAD],
    ["components/work/row.tsx", "next/link", AHEAD],
    ["lib/hvac/water.ts", "node:fs", PURE],
    ["lib/hvac/water.ts", "react", PURE],
    ["lib/hvac/water.ts", "../db/tenant", PURE],
    ["lib/hvac/water.ts", "@/lib/db/tenant", PURE],
    ["lib/hvac/water.ts", "@/lib/quality", PURE],
    ["lib/hvac/log/order.ts", "../../sync/protocol", PURE],
    ["lib/hvac/log/order.ts", "@/lib/dispatch", PURE],
    ["lib/dispatch/travel.ts", "@/lib/hvac", PURE],
    ["lib/quality/ranking.ts", "pg", PURE],
    ["lib/ledger/posting.ts", "@/lib/db/tenant", PURE],
    ["lib/ledger/posting.ts", "@/lib/duties", PURE],
    ["lib/duties/us.ts", "@/lib/quality", PURE],
    ["lib/hvac/water.ts", "@/lib/ledger", PURE],
    ["lib/words/speak.ts", "@/lib/hvac", PURE],
    ["lib/words/en/hold.ts", "react", PURE],
    ["lib/sync/protocol.ts", "./device/outbox", PURE],
    ["lib/sync/protocol.ts", "dexie", PURE],
    ["lib/result.ts", "@/lib/db/tenant", PURE],
    ["lib/ids.ts", "node:crypto", PURE],
    ["lib/db/jobs.ts", "@/app/layout", LOOKS_UP],
    ["lib/db/tenant.ts", "../../components/ui/button", LOOKS_UP],
    ["lib/auth/session.ts", "@/components/ui/button", LOOKS_UP],
    ["lib/registry/tool.ts", "@/tests/db/setup", LOOKS_UP],
    ["lib/env.ts", "@/e2e/serve-demo", LOOKS_UP],
    ["lib/embedded/server.ts", "@/scripts/step", LOOKS_UP],
    ["lib/db/jobs.ts", "./client", CLIENT],
    ["lib/auth/session.ts", "@/lib/db/client", CLIENT],
    ["app/page.tsx", "@/lib/db/client", CLIENT],
    ["app/page.tsx", "@/lib/db/generated/client", CLIENT],
    ["app/page.tsx", "@/lib/hvac/water", DOOR],
    ["app/(office)/[company]/page.tsx", "@/lib/hvac/log/order", DOOR],
    ["components/work/picture.tsx", "@/lib/quality/ranking", DOOR],
    ["app/page.tsx", "@/lib/ledger/posting", DOOR],
    ["app/page.tsx", "@/lib/duties/us", DOOR],
    ["components/work/picture.tsx", "../../lib/dispatch/travel", DOOR],
    ["app/page.tsx", "@/lib/sync/device/outbox", DOOR],
    ["e2e/journey.spec.ts", "@/lib/hvac/water", DOOR],
    ["bench/hold.ts", "@/lib/hvac/hold/judge-hold", DOOR],
    ["scripts/hvac.ts", "@/lib/hvac/water", DOOR],
    ["components/work/picture.tsx", "@/app/layout", "never looks up to a page"],
    ["app/page.tsx", "@/lib/embedded/server", "starting one is for the commands"],
  ])("%s may not import %s", async (path, specifier, message) => {
    plant(path, importing(specifier));
    expect(await complaints()).toContain(message);
  });

  test("also as a type, a re-export or a dynamic import", async () => {
    plant("lib/hvac/a.ts", 'import type { Tx } from "@/lib/db/tenant";\nexport type A = Tx;\n');
    plant("lib/hvac/b.ts", 'export { a } from "node:fs";\n');
    plant("lib/hvac/c.ts", 'export const c = () => import("node:fs");\n');
    const said = await complaints();
    for (const file of ["a", "b", "c"]) expect(said).toMatch(new RegExp(`lib/hvac/${file}\\.ts.*${PURE}`));
  });

  test("two files that import each other", async () => {
    plant("lib/hvac/a.ts", 'import { b } from "./b";\nexport const a = () => b;\n');
    plant("lib/hvac/b.ts", 'import { a } from "./a";\nexport const b = () => a;\n');
    expect(await complaints()).toContain("noImportCycles");
  });

  test("the environment read anywhere but in lib/env.ts and the commands", async () => {
    for (const path of ["app/page.tsx", "lib/db/jobs.ts", "lib/hvac/water.ts", "components/a.tsx"]) {
      plant(path, "export const a = process.env.DATABASE_URL;\n");
    }
    expect((await complaints()).match(/noProcessEnv/g)).toHaveLength(4);
  });
});

test("imports along the direction of the house are let through", async () => {
  plant("lib/hvac/log/order.ts", ["../units", "@/lib/ids", "@/lib/result", "zod", "./entry"].map(reexport).join(""));
  plant("lib/sync/protocol.ts", ["@/lib/hvac/log/order", "zod"].map(reexport).join(""));
  plant("lib/db/jobs.ts", ["@/lib/hvac/log/order", "./tenant", "server-only", "pg"].map(reexport).join(""));
  plant("lib/db/tenant.ts", reexport("./client"));
  plant("lib/env.ts", "export const a = process.env.DATABASE_URL;\n");
  plant(
    "app/page.tsx",
    [
      "@/lib/hvac",
      "@/lib/hvac/rulebook",
      "@/lib/hvac/schema",
      "@/lib/sync/device",
      "@/lib/db/jobs",
      "@/components/ui/button",
    ]
      .map(reexport)
      .join(""),
  );
  plant("scripts/hvac.ts", ["@/lib/hvac", "@/lib/embedded/server", "@/prisma/migrate"].map(reexport).join(""));
  const said = await complaints();
  expect(said).not.toMatch(/noRestrictedImports|noProcessEnv|noImportCycles/);
});

let names = 0;
function reexport(specifier: string): string {
  names += 1;
  return `export { a as a${names} } from "${specifier}";\n`;
}
