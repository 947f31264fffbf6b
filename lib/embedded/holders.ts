import { randomUUID } from "node:crypto";
import { mkdirSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { isAlive } from "./postmaster";

/** Writes down that this process uses the server, so that whoever leaves last stops it. Returns the file to remove. */
export function registerHolder(folder: string): string {
  const file = join(folder, `${process.pid}.${randomUUID()}`);
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  writeFileSync(file, "", { mode: 0o600 });
  return file;
}

/** How many processes still use the server; those that died without leaving are cleared away. */
export function countHolders(folder: string): number {
  const alive = readdirSync(folder).filter((name) => {
    if (isAlive(Number.parseInt(name, 10))) return true;
    rmSync(join(folder, name), { force: true });
    return false;
  });
  return alive.length;
}
