import "server-only";
import { createHash } from "node:crypto";
import type { JobId, TraceId } from "@/lib/ids";
import type { KnownTrace } from "@/lib/sync/trace";
import { type TraceSample, type TraceUnit, unpackChunk } from "@/lib/sync/trace-chunk";
import type { TenantTx } from "./tenant";

export interface StoredTrace {
  traceId: TraceId;
  chunks: { index: number; digest: string; sampleCount: number }[];
}

/** What the server holds of each trace of a job, chunk by chunk. */
export async function listTraces(tx: TenantTx, jobId: JobId): Promise<StoredTrace[]> {
  const traces = await tx.trace.findMany({
    where: { jobId },
    select: {
      id: true,
      chunks: { select: { chunkIndex: true, digest: true, sampleCount: true }, orderBy: { chunkIndex: "asc" } },
    },
  });
  return traces.map((trace) => ({
    traceId: trace.id as TraceId,
    chunks: trace.chunks.map((chunk) => ({
      index: chunk.chunkIndex,
      digest: Buffer.from(chunk.digest).toString("hex"),
      sampleCount: chunk.sampleCount,
    })),
  }));
}

export async function findChunk(
  tx: TenantTx,
  jobId: JobId,
  traceId: TraceId,
  index: number,
): Promise<Uint8Array<ArrayBuffer> | null> {
  const chunk = await tx.traceChunk.findFirst({
    where: { traceId, chunkIndex: index, trace: { jobId } },
    select: { packed: true },
  });
  return chunk?.packed ?? null;
}

/** Every sample of every trace of a job, as far as the chunks arrived without a gap from the first and in its unit. */
export async function readTraces(tx: TenantTx, jobId: JobId): Promise<Map<TraceId, KnownTrace>> {
  const chunks = await tx.traceChunk.findMany({
    where: { trace: { jobId } },
    orderBy: [{ traceId: "asc" }, { chunkIndex: "asc" }],
    select: { traceId: true, chunkIndex: true, packed: true },
  });
  const traces = new Map<TraceId, { unit: TraceUnit; samples: TraceSample[]; chunkDigests: string[] }>();
  for (const { traceId, chunkIndex, packed } of chunks) {
    const chunk = unpackChunk(packed);
    if (!chunk.ok) throw new Error(`stored chunk ${chunkIndex} of trace ${traceId} cannot be read`);
    const trace = traces.get(traceId as TraceId) ?? { unit: chunk.value.unit, samples: [], chunkDigests: [] };
    traces.set(traceId as TraceId, trace);
    if (chunkIndex !== trace.chunkDigests.length || chunk.value.unit !== trace.unit) continue;
    trace.samples.push(...chunk.value.samples);
    trace.chunkDigests.push(createHash("sha256").update(packed).digest("hex")); // of what is stored, not of what was once
  }
  return traces;
}
