import type { JobId, TraceId } from "@/lib/ids";
import {
  type Ask,
  chunkDigest,
  countOutbox,
  type Desk,
  DeviceStore,
  fetchLog,
  keepTrace,
  listJobEntries,
  listProblems,
  pageLocks,
  sendOwed,
  traceOfChunks,
  writeEntry,
} from "@/lib/sync/device";
import { fallibleDisk } from "./fallible-disk";
import type { FieldDevice, Held } from "./field-device";
import type { Seeded } from "./seeded";

interface Tab {
  readonly store: DeviceStore;
  readonly locks: ReturnType<typeof pageLocks>;
}

/** A tablet running the product's own outbox on IndexedDB, in one or two tabs that share nothing but the disk. */
export async function indexedDbDevice(
  desk: Desk,
  job: JobId,
  ask: Ask,
  chance: Seeded,
  tabCount: number,
): Promise<FieldDevice> {
  const disk = fallibleDisk();
  const openTab = (): Tab => ({ store: new DeviceStore("dryhold", disk), locks: pageLocks() });
  let tabs = Array.from({ length: tabCount }, openTab);
  const tab = () => chance.pick(tabs);

  return {
    person: desk.person,
    write: (content, nowMs) => {
      const { store, locks } = tab();
      return writeEntry(store, locks, desk, job, content, { now: () => nowMs });
    },
    keepTrace: async (samples) => {
      const kept = await keepTrace(tab().store, desk, job, "micron", samples);
      if (!kept.ok) throw new Error(kept.error.code);
      return kept.value;
    },
    send: async (nowMs) => {
      const { store, locks } = tab();
      return (await sendOwed(store, locks, desk, ask, () => nowMs)).code;
    },
    fetch: async (nowMs) => {
      const { store } = tab();
      const outcome = await fetchLog(store, desk, ask, job, () => nowMs);
      return outcome === "fresh" ? fetchTraces(store, desk, job, ask) : outcome;
    },
    kill: async () => {
      for (const { store } of tabs) store.close();
      disk.cut();
      tabs = Array.from({ length: tabCount }, openTab);
    },
    setFull: disk.setFull,
    held: async (): Promise<Held> => {
      const { store } = tabs[0]!;
      const [entries, { waiting }, problems, rows] = await Promise.all([
        listJobEntries(store, desk, job),
        countOutbox(store, desk),
        listProblems(store, desk),
        store.chunks.list(),
      ]);
      const ids = [...new Set(rows.map(({ trace }) => trace))];
      const chunksOf = (id: TraceId) => rows.filter(({ trace }) => trace === id).sort((a, b) => a.index - b.index);
      const traces = new Map(ids.map((id) => [id, traceOfChunks(chunksOf(id))]));
      return { entries, waiting, problems: problems.map(({ id }) => id), traces };
    },
    end: async () => {
      for (const { store } of tabs) store.close();
    },
  };
}

/** As the tablet's job page does: chunks of others that the server named and this device has not. */
async function fetchTraces(store: DeviceStore, desk: Desk, job: JobId, ask: Ask): Promise<string> {
  const page = await store.pages.get([desk.company, desk.person, `job ${job}`]);
  const { traces = [] } = (page?.content ?? {}) as { traces?: { traceId: TraceId; chunks: { index: number }[] }[] };
  for (const { traceId: trace, chunks } of traces) {
    for (const { index } of chunks) {
      if (await store.chunks.get([trace, index])) continue;
      const answer = await ask(`/api/${desk.slug}/jobs/${job}/traces/${trace}/chunks/${index}`, {}).catch(() => null);
      if (!answer?.ok) return "no-readings";
      const packed = new Uint8Array(await answer.arrayBuffer());
      await store.chunks.put({ ...desk, trace, index, job, packed, digest: chunkDigest(packed), sentAt: "fetched" });
    }
  }
  return "fresh";
}
