import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { EmbeddedFailure } from "./failure";

/** The account PostgreSQL runs as when the caller is root, which PostgreSQL refuses to run as. */
export interface Account {
  readonly name: string;
  readonly uid: number;
  readonly gid: number;
}

const CANDIDATES = ["postgres", "node", "nobody"];

/** The first of postgres, node, nobody on this machine when running as root; `null` when the caller can run the server as itself. */
export function requireServerAccount(): Account | null {
  if (process.getuid?.() !== 0) return null;
  const lines = readFileSync("/etc/passwd", "utf8").split("\n");
  for (const name of CANDIDATES) {
    const fields = lines.find((line) => line.startsWith(`${name}:`))?.split(":");
    if (fields) return { name, uid: Number(fields[2]), gid: Number(fields[3]) };
  }
  throw new EmbeddedFailure(
    `PostgreSQL does not run as root and none of the accounts ${CANDIDATES.join(", ")} exists. ` +
      "Run as an ordinary user, or set DATABASE_URL and MIGRATOR_URL.",
  );
}

/** Whether the account can enter the folder; asked of the system itself, so that ACLs and mounts count too. */
export function canEnter(account: Account | null, folder: string): boolean {
  if (!account) return true;
  const { uid, gid } = account;
  return spawnSync("/bin/sh", ["-c", 'cd "$0"', folder], { cwd: "/", uid, gid, stdio: "ignore" }).status === 0;
}

/** How the server's programs are run: as the account, in a folder it can enter, with nothing of our environment. */
export function serverProcess(account: Account | null, folder: string) {
  const env = { LC_ALL: "C", TZ: "UTC" } as unknown as NodeJS.ProcessEnv; // Next.js declares NODE_ENV as always there
  return { cwd: folder, env, ...(account && { uid: account.uid, gid: account.gid }) };
}
