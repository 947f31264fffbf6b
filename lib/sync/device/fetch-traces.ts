import type { JobId, TraceId } from "@/lib/ids";
import type { KnownTrace } from "../trace";
import type { ChunkRow, Desk } from "./device-rows";
import type { DeviceStore } from "./device-store";
import { chunkDigest, traceOfChunks } from "./keep-trace";
import type { Ask } from "./send";

/** Which traces a job has on the server, by the digests of their chunks. */
export interface ListedTrace {
  readonly traceId: TraceId;
  readonly chunks: readonly { readonly index: number }[];
}

/** Fetches the chunks of a job's traces that are not on this device; stops at the first that does not come. */
export async function fetchTraces(
  store: DeviceStore,
  desk: Desk,
  ask: Ask,
  job: JobId,
  listed: readonly ListedTrace[],
  now: () => number = Date.now,
): Promise<void> {
  for (const { traceId, chunks } of listed) {
    for (const { index } of chunks) {
      if (await store.chunks.get([traceId, index])) continue;
      const path = `/api/${desk.slug}/jobs/${job}/traces/${traceId}/chunks/${index}`;
      const response = await ask(path, {}).catch(() => null);
      if (!response?.ok) return;
      const packed = new Uint8Array(await response.arrayBuffer());
      const digest = chunkDigest(packed);
      const sentAt = new Date(now()).toISOString();
      await store.chunks.put({ ...desk, trace: traceId, index, job, packed, digest, sentAt });
    }
  }
}

/** The job's traces as far as they are on this device. */
export async function listTraces(
  store: DeviceStore,
  desk: Desk,
  job: JobId,
): Promise<ReadonlyMap<TraceId, KnownTrace>> {
  const rows = await store.chunks.list("company+person+job", [desk.company, desk.person, job]);
  const byTrace = new Map<TraceId, ChunkRow[]>();
  for (const row of rows) byTrace.set(row.trace, [...(byTrace.get(row.trace) ?? []), row]);
  return new Map([...byTrace].map(([id, chunks]) => [id, traceOfChunks(chunks.sort((a, b) => a.index - b.index))]));
}
