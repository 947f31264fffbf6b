import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";

// What every command needs before it can read our TypeScript: a recent Node and the installed packages.
const [major = 0, minor = 0] = process.versions.node.split(".").map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`Dryhold needs Node 20.19 or newer; this is ${process.versions.node}.`);
  process.exit(1);
}

const projectFolder = fileURLToPath(new URL("..", import.meta.url));
process.chdir(projectFolder);
if (!existsSync("node_modules/tsx") || !existsSync("node_modules/next")) {
  console.error('The packages are not installed (or only in part): run "npm ci --include=dev" first.');
  process.exit(1);
}

const { register } = await import("tsx/esm/api");
register();
