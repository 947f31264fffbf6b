import type { JobId } from "@/lib/ids";
import type { Desk } from "./device-rows";
import type { DeviceStore } from "./device-store";
import { fetchLog } from "./fetch-log";
import { fetchTraces, type ListedTrace } from "./fetch-traces";
import type { Ask } from "./send";

const FRESH_MS = 10 * 60_000;

/** Fetches the jobs of the days ahead, one after the other, so that each opens where there is no network. */
export async function keepAhead(
  store: DeviceStore,
  desk: Desk,
  ask: Ask,
  jobs: readonly JobId[],
  now: () => number = Date.now,
): Promise<void> {
  for (const job of jobs) {
    const name = [desk.company, desk.person, `job ${job}`];
    const kept = await store.pages.get(name);
    if (kept && now() - Date.parse(kept.fetchedAt) < FRESH_MS) continue;
    const outcome = await fetchLog(store, desk, ask, job, now);
    if (outcome === "no-network" || outcome === "signed-out") return;
    const heading = (await store.pages.get(name))?.content as { traces?: readonly ListedTrace[] } | undefined;
    if (heading?.traces) await fetchTraces(store, desk, ask, job, heading.traces, now);
  }
}
