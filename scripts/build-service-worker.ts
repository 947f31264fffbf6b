import { readFileSync, writeFileSync } from "node:fs";
import { build } from "esbuild";
import { listTabletFiles } from "./tablet-files";

/** Writes the tablet's service worker with the names of every file the build just made for the tablet. */
export async function buildServiceWorker(): Promise<void> {
  const program = { build: readFileSync(".next/BUILD_ID", "utf8").trim(), files: [...listTabletFiles().all, ...ICONS] };
  const { outputFiles } = await build({
    entryPoints: ["app/(tablet)/_worker/service-worker.ts"],
    bundle: true,
    minify: true,
    format: "iife",
    target: "es2022",
    define: { PROGRAM: JSON.stringify(program) },
    write: false,
  });
  writeFileSync(".next/service-worker.js", outputFiles[0]!.contents);
}

const ICONS = ["/icons/tablet-192.png", "/icons/tablet.svg"];
