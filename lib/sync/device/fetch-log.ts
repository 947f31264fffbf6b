import type { Entry, Stamp } from "@/lib/hvac/procedure";
import type { JobId } from "@/lib/ids";
import { stamped, wireOf } from "../protocol";
import type { Desk } from "./device-rows";
import { type DeviceStore, noteServerClock } from "./device-store";
import { dropById } from "./outbox";
import type { Ask } from "./send";

export type FetchOutcome = "fresh" | "no-network" | "signed-out" | "not-found" | "forbidden" | "server-trouble";

/** Keeps one page's answer on the device, or says why there is none. What was kept before stays. */
export async function fetchPage(
  store: DeviceStore,
  desk: Desk,
  ask: Ask,
  name: string,
  path: string,
  now: () => number = Date.now,
): Promise<FetchOutcome> {
  const response = await ask(path, { headers: { accept: "application/json" } }).catch(() => null);
  if (!response) return "no-network";
  if (!response.ok) return outcomeOf(response.status);
  const noted = noteServerClock(store, response.headers.get("date"), now());
  const [content] = await Promise.all([response.json() as Promise<unknown>, noted]);
  const { company, person } = desk;
  await store.pages.put({ company, person, name, fetchedAt: new Date(now()).toISOString(), content });
  return "fresh";
}

interface LogAnswer {
  readonly entries: readonly (Entry & { readonly stamp: Stamp })[];
  readonly upTo: number;
  readonly [heading: string]: unknown;
}

/** Fetches what the server has received since last time, and the job's heading; both are on disk when it resolves. */
export async function fetchLog(
  store: DeviceStore,
  desk: Desk,
  ask: Ask,
  job: JobId,
  now: () => number = Date.now,
): Promise<FetchOutcome> {
  const { company, person } = desk;
  const name = `job ${job}`;
  const known = (await store.pages.get([company, person, name]))?.content as { upTo?: number } | undefined;
  const path = `/api/${desk.slug}/jobs/${job}/log?after=${known?.upTo ?? 0}`;
  const response = await ask(path, { headers: { accept: "application/json" } }).catch(() => null);
  if (!response) return "no-network";
  if (!response.ok) return outcomeOf(response.status);
  await noteServerClock(store, response.headers.get("date"), now());
  const { entries, ...heading } = (await response.json()) as LogAnswer;
  await store.transaction("rw", ["log", "outbox", "pages"], async (tx) => {
    for (const { stamp, ...wire } of entries) {
      const entry = stamped(wireOf(wire as Entry), stamp);
      const { signed } = (await tx.log.get([company, person, job, entry.id])) ?? {};
      await tx.log.put({ company, person, job, id: entry.id, entry, ...(signed && { signed }) });
      // An answer that was lost on the way shows here: the server has the entry, so it is no longer owed.
      await dropById(tx.outbox, entry.id);
    }
    await tx.pages.put({ company, person, name, fetchedAt: new Date(now()).toISOString(), content: heading });
  });
  return "fresh";
}

export function outcomeOf(status: number): Exclude<FetchOutcome, "fresh"> {
  if (status === 401) return "signed-out";
  if (status === 403) return "forbidden";
  return status === 404 ? "not-found" : "server-trouble";
}
