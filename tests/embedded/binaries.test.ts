import { mkdirSync, mkdtempSync, readlinkSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { restoreSymlinks } from "@/lib/embedded/binaries";

test("symlinks that npm left out under --ignore-scripts are made, and a second time changes nothing", () => {
  const folder = mkdtempSync(join(tmpdir(), "dryhold-package-"));
  try {
    mkdirSync(join(folder, "native", "lib"), { recursive: true });
    writeFileSync(join(folder, "native", "lib", "libpq.so.5.18"), "");
    const links = [{ source: "native/lib/libpq.so.5.18", target: "native/lib/libpq.so" }];
    writeFileSync(join(folder, "native", "pg-symlinks.json"), JSON.stringify(links));
    restoreSymlinks(folder);
    restoreSymlinks(folder);
    expect(readlinkSync(join(folder, "native", "lib", "libpq.so"))).toBe("libpq.so.5.18");
  } finally {
    rmSync(folder, { recursive: true });
  }
});
