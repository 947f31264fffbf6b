"use client";

import { useEffect } from "react";
import type { JobId, TraceId } from "@/lib/ids";
import { chunkDigest, type KnownTrace, traceOfChunks } from "@/lib/sync/device";
import { useDevice } from "../device/device-context";
import { useLive } from "../device/use-live";
import type { JobHeading } from "./job-heading";

const none: ReadonlyMap<TraceId, KnownTrace> = new Map();

/** The job's traces as far as they are on this device; missing chunks are fetched while there is a network. */
export function useTraces(
  job: JobId,
  heading: JobHeading | null | undefined,
): ReadonlyMap<TraceId, KnownTrace> | undefined {
  const { store, desk } = useDevice();
  const key = { company: desk.company, person: desk.person };
  const traces = useLive(`traces ${job}`, async () => {
    const rows = await store.chunks
      .where(key)
      .filter((row) => row.job === job)
      .toArray();
    if (rows.length === 0) return none;
    const byTrace = new Map<TraceId, typeof rows>();
    for (const row of rows) byTrace.set(row.trace, [...(byTrace.get(row.trace) ?? []), row]);
    return new Map(
      [...byTrace].map(([id, chunks]) => [id, traceOfChunks(chunks.sort((a, b) => a.index - b.index))] as const),
    );
  });

  useEffect(() => {
    let gone = false;
    async function fetchMissing() {
      for (const trace of heading?.traces ?? []) {
        for (const chunk of trace.chunks) {
          if (gone || (await store.chunks.get([trace.traceId, chunk.index]))) continue;
          const path = `/api/${desk.slug}/jobs/${job}/traces/${trace.traceId}/chunks/${chunk.index}`;
          const response = await fetch(path).catch(() => null);
          if (!response?.ok) return;
          const packed = new Uint8Array(await response.arrayBuffer());
          const digest = chunkDigest(packed);
          const sentAt = new Date().toISOString();
          await store.chunks.put({ ...desk, trace: trace.traceId, index: chunk.index, job, packed, digest, sentAt });
        }
      }
    }
    void fetchMissing();
    return () => {
      gone = true;
    };
  }, [store, desk, job, heading]);
  return traces;
}
