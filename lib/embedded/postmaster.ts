import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { basename, join } from "node:path";

/** What a running server writes into its data folder. */
export interface Postmaster {
  readonly pid: number;
  readonly port: number;
  readonly status: string;
}

/** The server that holds the data folder, or `null` when none does (no file, a dead pid, or a pid that is another program now). */
export function findPostmaster(dataFolder: string): Postmaster | null {
  const written = readPidFile(dataFolder);
  return written && isPostgres(written.pid) ? written : null;
}

/** @source PostgreSQL source, src/include/utils/pidfile.h: line 1 pid, line 4 port, line 8 status */
function readPidFile(dataFolder: string): Postmaster | null {
  let lines: string[];
  try {
    lines = readFileSync(join(dataFolder, "postmaster.pid"), "utf8").split("\n");
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return null;
    throw error;
  }
  const pid = Number.parseInt(lines[0] ?? "", 10);
  if (!Number.isInteger(pid)) return null; // being written
  return { pid, port: Number(lines[3]), status: (lines[7] ?? "").trim() };
}

/** Whether the pid is taken by a process; one of another user counts. */
export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}

/** Whether the pid is a running PostgreSQL; a zombie has no command line left and does not count. */
export function isPostgres(pid: number): boolean {
  if (!isAlive(pid)) return false;
  try {
    const command =
      process.platform === "linux"
        ? readFileSync(`/proc/${pid}/cmdline`, "utf8").split("\0")[0]
        : execFileSync("ps", ["-o", "comm=", "-p", String(pid)], { encoding: "utf8" }).trim();
    return basename(command ?? "") === "postgres";
  } catch {
    return false; // ended while we looked
  }
}
