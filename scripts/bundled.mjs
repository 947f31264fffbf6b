/**
 * Runs a TypeScript command from one bundled file: `node scripts/bundled.mjs scripts/hvac.ts ARGS`.
 *
 * Compiling at each start costs more than most commands run for, so the bundle is kept in .cache and made anew
 * only when a file it was made from has changed.
 */
import { mkdirSync, readFileSync, renameSync, statSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const [entry, ...args] = process.argv.slice(2);
if (entry === undefined) throw new Error("Usage: node scripts/bundled.mjs ENTRY.ts [ARGS]");

const bundle = join(root, ".cache/commands", `${basename(entry, ".ts")}.mjs`);
const madeFrom = `${bundle}.json`;

if (!isFresh()) await make();
process.argv = [process.argv[0], entry, ...args];
await import(pathToFileURL(bundle).href);

function isFresh() {
  try {
    statSync(bundle);
    return Object.entries(JSON.parse(readFileSync(madeFrom, "utf8"))).every(([file, stamp]) => stampOf(file) === stamp);
  } catch {
    return false;
  }
}

async function make() {
  const { build } = await import("esbuild");
  const { outputFiles, metafile } = await build({
    entryPoints: [entry],
    absWorkingDir: root,
    bundle: true,
    platform: "node",
    format: "esm",
    target: "node20",
    alias: { "@": root },
    outfile: bundle,
    metafile: true,
    write: false,
    logLevel: "error",
  });
  const stamps = Object.fromEntries(
    [...Object.keys(metafile.inputs), "package-lock.json"].map((file) => [file, stampOf(file)]),
  );
  mkdirSync(join(root, ".cache/commands"), { recursive: true });
  replace(bundle, outputFiles[0].contents);
  replace(madeFrom, JSON.stringify(stamps));
}

/** Two commands started at once must never see half a file. */
function replace(path, contents) {
  const draft = `${path}.${process.pid}`;
  writeFileSync(draft, contents);
  renameSync(draft, path);
}

function stampOf(file) {
  const { mtimeMs, size } = statSync(join(root, file));
  return `${mtimeMs} ${size}`;
}
