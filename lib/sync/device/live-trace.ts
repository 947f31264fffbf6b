import type { TraceReference } from "@/lib/hvac/procedure";
import type { JobId, TraceId } from "@/lib/ids";
import { traceDigest } from "../trace";
import { packChunk, type TraceSample, type TraceUnit } from "../trace-chunk";
import type { Desk } from "./device-rows";
import type { DeviceStore } from "./device-store";
import { chunkDigest, traceOfChunks } from "./keep-trace";

/** A trace that grows while an instrument writes: what is not on disk as chunks yet stands in the tail. */
export interface LiveTrace {
  readonly traceId: TraceId;
  readonly unit: TraceUnit;
  readonly tail: readonly TraceSample[];
}

/**
 * Puts the tail's samples that are not on disk yet into the trace's next chunk. Told twice it changes nothing: samples up to the last
 * one on disk are passed over. A chunk has a temperature at every sample or at none, so a change there begins another.
 */
export async function keepTail(store: DeviceStore, desk: Desk, job: JobId, live: LiveTrace): Promise<void> {
  await store.transaction("rw", ["chunks"], async ({ chunks }) => {
    const rows = await listChunks(chunks, desk, job, live.traceId);
    const lastMs = traceOfChunks(rows.slice(-1)).samples.at(-1)?.atMs ?? Number.NEGATIVE_INFINITY;
    const runs: TraceSample[][] = [];
    for (const sample of live.tail) {
      if (sample.atMs <= lastMs) continue;
      const run = runs.at(-1);
      if (run && (run[0]?.temperatureC === undefined) === (sample.temperatureC === undefined)) run.push(sample);
      else runs.push([sample]);
    }
    for (const [at, samples] of runs.entries()) {
      const packed = packChunk({ unit: live.unit, samples });
      if (!packed.ok) throw new Error(`readings of an instrument do not pack: ${packed.error.code}`);
      const digest = chunkDigest(packed.value);
      const index = rows.length + at;
      await chunks.add({ ...desk, trace: live.traceId, index, job, packed: packed.value, digest, sentAt: null });
    }
  });
}

/** Ends a growing trace: all of it on disk, and the reference an entry names it by. Null when nothing was ever received. */
export async function endLiveTrace(
  store: DeviceStore,
  desk: Desk,
  job: JobId,
  live: LiveTrace,
): Promise<TraceReference | null> {
  await keepTail(store, desk, job, live);
  const rows = await listChunks(store.chunks, desk, job, live.traceId);
  if (rows.length === 0) return null;
  return {
    traceId: live.traceId,
    sampleCount: traceOfChunks(rows).samples.length,
    digest: traceDigest(rows.map(({ digest }) => digest)),
  };
}

async function listChunks(chunks: DeviceStore["chunks"], desk: Desk, job: JobId, trace: TraceId) {
  const rows = await chunks.list("company+person+job", [desk.company, desk.person, job]);
  return rows.filter((row) => row.trace === trace).sort((a, b) => a.index - b.index);
}
