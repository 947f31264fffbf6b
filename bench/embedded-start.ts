import { execFileSync } from "node:child_process";
import { chownSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { requireServerAccount, serverProcess } from "@/lib/embedded/account";
import { freePort } from "@/lib/embedded/launch";
import { isPostgres } from "@/lib/embedded/postmaster";
import { prepareDatabase } from "@/lib/embedded/roles";
import { startEmbedded } from "@/lib/embedded/server";
import { type Figure, median, printWhenStarted } from "./figure";

const ROUNDS = 5;
const DEBIAN = "/usr/lib/postgresql";

/** Time until the embedded database takes connections, beside Debian's own PostgreSQL through `initdb` and `pg_ctl` where it is installed. */
export async function benchEmbeddedStart(): Promise<readonly Figure[]> {
  const ours: Awaited<ReturnType<typeof embedded>>[] = [];
  const debian: StartTimes[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    ours.push(await embedded()); // one after the other in turn, so that a busy machine hurts both
    const peer = await debianStart();
    if (peer) debian.push(peer);
  }
  const name = debian.length > 0 ? `Debian's PostgreSQL ${debianVersion()}` : "";
  const figure = (label: string, pick: (times: StartTimes) => number): Figure => ({
    name: label,
    value: median(ours.map(pick)),
    unit: "ms",
    ...(debian.length > 0 && { beside: { name, value: median(debian.map(pick)) } }),
  });
  return [
    figure("embedded database, first start", (times) => times.first),
    figure("embedded database, warm start", (times) => times.warm),
    figure("embedded database, start after kill -9", (times) => times.afterKill),
    { name: "embedded database, joining a running one", value: median(ours.map(({ join: ms }) => ms)), unit: "ms" },
    { name: "roles and database on a first start", value: median(ours.map(({ roles }) => roles)), unit: "ms" },
  ];
}

interface StartTimes {
  readonly first: number;
  readonly warm: number;
  readonly afterKill: number;
}

async function embedded() {
  const dataFolder = mkdtempSync(join(tmpdir(), "dryhold-bench-"));
  const start = () => startEmbedded({ projectFolder: process.cwd(), dataFolder });
  try {
    const [first, made] = await timed(start);
    const [roles] = await timed(() => prepareDatabase(made));
    await made.release();
    const [warm, again] = await timed(start);
    const [joining, joined] = await timed(start);
    await joined.release();
    process.kill(again.pid, "SIGKILL");
    while (isPostgres(again.pid)) await new Promise((resolve) => setTimeout(resolve, 2));
    const [afterKill, recovered] = await timed(start);
    await again.release();
    await recovered.release();
    return { first, warm, afterKill, roles, join: joining };
  } finally {
    rmSync(dataFolder, { recursive: true, force: true });
  }
}

async function debianStart(): Promise<StartTimes | null> {
  if (!existsSync(DEBIAN)) return null;
  const programs = join(DEBIAN, debianVersion(), "bin");
  const account = requireServerAccount();
  const folder = mkdtempSync(join(tmpdir(), "dryhold-bench-debian-"));
  if (account) chownSync(folder, account.uid, account.gid);
  const data = join(folder, "data");
  const port = await freePort();
  const run = (program: string, args: readonly string[]) =>
    execFileSync(join(programs, program), args, { ...serverProcess(account, folder), stdio: "ignore" });
  const control = (...args: string[]) => run("pg_ctl", ["-w", "-D", data, "-l", join(folder, "log"), ...args]);
  const up = () => control("-o", `-p ${port} -c listen_addresses=127.0.0.1 -c unix_socket_directories=''`, "start");
  try {
    const [first] = await timed(async () => {
      run("initdb", ["-D", data, "-U", "postgres", "--auth=trust", "--encoding=UTF8", "--locale=C"]);
      up();
    });
    control("-m", "fast", "stop");
    const [warm] = await timed(async () => up());
    const pid = Number.parseInt(readFileSync(join(data, "postmaster.pid"), "utf8"), 10);
    process.kill(pid, "SIGKILL");
    while (isPostgres(pid)) await new Promise((resolve) => setTimeout(resolve, 2));
    const [afterKill] = await timed(async () => {
      for (let attempt = 1; ; attempt++) {
        try {
          return up();
        } catch (error) {
          if (attempt === 20) throw error; // as in our starter: the killed server's own processes have to end first
        }
      }
    });
    control("-m", "fast", "stop");
    return { first, warm, afterKill };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function debianVersion(): string {
  return readdirSync(DEBIAN).sort((a, b) => Number(b) - Number(a))[0]!;
}

async function timed<T>(work: () => Promise<T>): Promise<[number, T]> {
  const startedAt = performance.now();
  const result = await work();
  return [performance.now() - startedAt, result];
}

await printWhenStarted(import.meta.url, benchEmbeddedStart);
