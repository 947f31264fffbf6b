import { randomUUID } from "node:crypto";
import { readFile, rename, rm, stat, utimes, writeFile } from "node:fs/promises";
import { setTimeout as delay } from "node:timers/promises";
import { EmbeddedFailure } from "./failure";
import { isAlive } from "./postmaster";

const HEARTBEAT_MS = 2_000;
const SILENT_TOO_LONG_MS = 15_000;
const PATIENCE_MS = 180_000;

/**
 * Runs `work` while no other starter of the same folder runs theirs.
 *
 * The lock file holds the starter's pid and is touched every two seconds; a lock whose pid is dead, or that has been
 * silent for fifteen seconds (its pid was handed to another program after a crash), is broken.
 */
export async function underStarterLock<T>(file: string, work: () => Promise<T>): Promise<T> {
  const mark = `${process.pid} ${randomUUID()}`;
  const giveUpAt = Date.now() + PATIENCE_MS;
  while (!(await tryTake(file, mark))) {
    await breakIfStale(file);
    if (Date.now() > giveUpAt) throw new EmbeddedFailure(`Another start holds ${file}; if none is running, delete it.`);
    await delay(40);
  }
  const heartbeat = setInterval(() => {
    const now = new Date();
    utimes(file, now, now).catch(() => {}); // a broken lock is noticed at the end, nothing to do here
  }, HEARTBEAT_MS).unref();
  try {
    return await work();
  } finally {
    clearInterval(heartbeat);
    if ((await readMark(file)) === mark) await rm(file, { force: true });
  }
}

async function tryTake(file: string, mark: string): Promise<boolean> {
  try {
    await writeFile(file, mark, { flag: "wx", mode: 0o600 });
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "EEXIST") return false;
    throw error;
  }
}

async function breakIfStale(file: string) {
  const mark = await readMark(file);
  const touchedAt = await stat(file).then(
    (found) => found.mtimeMs,
    () => null,
  );
  if (mark === null || touchedAt === null) return;
  const owner = Number.parseInt(mark, 10);
  const ownerIsDead = Number.isInteger(owner) && !isAlive(owner); // an empty file was opened but not written yet
  if (!ownerIsDead && Date.now() - touchedAt < SILENT_TOO_LONG_MS) return;
  const aside = `${file}.${randomUUID()}`;
  try {
    await rename(file, aside); // only one of several breakers gets it
  } catch {
    return;
  }
  if ((await readMark(aside)) !== mark)
    await rename(aside, file); // a fresh lock came in between: give it back
  else await rm(aside, { force: true });
}

function readMark(file: string): Promise<string | null> {
  return readFile(file, "utf8").catch(() => null);
}
