import { gzipSync } from "node:zlib";
import { build } from "esbuild";
import { type Figure, printWhenStarted } from "./figure";

const ALLOWED_KB = 40;

/** Weight of the engine as a browser loads it: everything behind its front door, without zod; the other doors beside it. */
export async function benchHvacBundle(): Promise<readonly Figure[]> {
  const weigh = async (entry: string) => {
    const { outputFiles } = await build({
      entryPoints: [entry],
      bundle: true,
      minify: true,
      format: "esm",
      platform: "browser",
      target: "es2022",
      external: ["zod"],
      alias: { "@": process.cwd() },
      write: false,
      logLevel: "error",
    });
    return gzipSync(outputFiles[0]!.contents, { level: 9 }).length / 1024;
  };
  return [
    {
      name: "the engine (lib/hvac) in the browser, gzip",
      value: await weigh("lib/hvac/index.ts"),
      unit: "kB",
      atMost: ALLOWED_KB,
    },
    {
      name: "the rule book (lib/hvac/rulebook) with what it calls, gzip",
      value: await weigh("lib/hvac/rulebook.ts"),
      unit: "kB",
    },
    {
      name: "the procedure (lib/hvac/procedure) with the engines it calls, gzip",
      value: await weigh("lib/hvac/procedure/index.ts"),
      unit: "kB",
    },
    { name: "refrigerant data alone, gzip", value: await weigh("lib/hvac/refrigerants/data.ts"), unit: "kB" },
  ];
}

await printWhenStarted(import.meta.url, benchHvacBundle);
