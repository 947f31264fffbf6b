import { spawn } from "node:child_process";
import { closeSync, existsSync, openSync, readFileSync, renameSync, rmSync, statSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import { setTimeout as delay } from "node:timers/promises";
import { type Account, serverProcess } from "./account";
import { EmbeddedFailure } from "./failure";
import { findPostmaster, isPostgres, type Postmaster } from "./postmaster";

const READY_WITHIN_MS = 120_000; // recovery after a crash replays the journal first
const STOPPED_WITHIN_MS = 60_000;
const ATTEMPTS = 8; // a port taken in between, or the last processes of a killed server still ending
const LOG_KEPT_BYTES = 5_000_000;

export interface Launch {
  readonly postgres: string;
  readonly account: Account | null;
  readonly clusterFolder: string;
  readonly logFile: string;
  readonly settings: Readonly<Record<string, string>>;
}

/** The server of this folder, ready for connections: joined when it runs, started when not. */
export async function joinOrLaunch(launch: Launch): Promise<{ postmaster: Postmaster; joined: boolean }> {
  const running = await settled(launch.clusterFolder);
  if (running) return { postmaster: running, joined: true };
  for (let attempt = 1; ; attempt++) {
    try {
      return { postmaster: await launchOnce(launch), joined: false };
    } catch (error) {
      if (!(error instanceof EmbeddedFailure) || attempt === ATTEMPTS) throw error;
      await delay(150 * attempt);
    }
  }
}

/** Asks the server to end open transactions and stop, and waits until it has. */
export async function stopPostmaster(clusterFolder: string): Promise<void> {
  const running = findPostmaster(clusterFolder);
  if (!running) return;
  process.kill(running.pid, "SIGINT");
  const giveUpAt = Date.now() + STOPPED_WITHIN_MS;
  while (isPostgres(running.pid)) {
    if (Date.now() > giveUpAt)
      throw new EmbeddedFailure(`PostgreSQL (pid ${running.pid}) did not stop within a minute.`);
    await delay(20);
  }
}

/** A running server once it is ready; `null` when there is none or it is on its way out and gone. */
async function settled(clusterFolder: string): Promise<Postmaster | null> {
  const giveUpAt = Date.now() + READY_WITHIN_MS;
  for (;;) {
    const found = findPostmaster(clusterFolder);
    if (!found || found.status === "ready") return found;
    if (Date.now() > giveUpAt) throw new EmbeddedFailure(`PostgreSQL (pid ${found.pid}) stays "${found.status}".`);
    await delay(20);
  }
}

async function launchOnce({ postgres, account, clusterFolder, logFile, settings }: Launch): Promise<Postmaster> {
  // Whoever it names is not a server: PostgreSQL itself would refuse while that pid belongs to any program.
  rmSync(join(clusterFolder, "postmaster.pid"), { force: true });
  const given = { listen_addresses: "127.0.0.1", unix_socket_directories: "", timezone: "UTC", log_timezone: "UTC" };
  const options = Object.entries({ ...given, ...settings }).flatMap(([name, value]) => ["-c", `${name}=${value}`]);
  const log = openLog(logFile);
  const child = spawn(postgres, ["-D", clusterFolder, "-p", String(await freePort()), ...options], {
    ...serverProcess(account, clusterFolder),
    detached: true, // a Ctrl-C at the terminal reaches us, not the server
    stdio: ["ignore", log.descriptor, log.descriptor],
  });
  closeSync(log.descriptor);
  let failedToRun: Error | undefined;
  child.once("error", (error) => {
    failedToRun = error;
  });
  child.unref();
  const giveUpAt = Date.now() + READY_WITHIN_MS;
  for (;;) {
    await delay(10);
    if (failedToRun) throw new EmbeddedFailure(`${postgres} could not be run: ${(failedToRun as Error).message}`);
    if (child.exitCode !== null || child.signalCode !== null || Date.now() > giveUpAt) {
      if (child.exitCode === null && child.signalCode === null) child.kill("SIGINT");
      const said = readFileSync(logFile).subarray(log.startByte).toString("utf8").trim();
      throw new EmbeddedFailure(`PostgreSQL did not start (log: ${logFile}):\n${said.slice(-2000)}`);
    }
    const found = findPostmaster(clusterFolder);
    if (found && found.pid === child.pid && found.status === "ready") return found;
  }
}

function openLog(logFile: string): { descriptor: number; startByte: number } {
  if (existsSync(logFile) && statSync(logFile).size > LOG_KEPT_BYTES) renameSync(logFile, `${logFile}.1`);
  const startByte = existsSync(logFile) ? statSync(logFile).size : 0;
  return { descriptor: openSync(logFile, "a", 0o600), startByte };
}

/** A port of 127.0.0.1 that is free at this moment. */
export function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer().once("error", reject);
    probe.listen(0, "127.0.0.1", () => {
      const address = probe.address();
      probe.close(() =>
        address && typeof address === "object" ? resolve(address.port) : reject(new Error("no port")),
      );
    });
  });
}
