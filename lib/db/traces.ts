import "server-only";
import { createHash } from "node:crypto";
import type { JobId, PersonId, TraceId } from "@/lib/ids";
import { err, ok, type Result } from "@/lib/result";
import type { KnownTrace } from "@/lib/sync/trace";
import { type TraceSample, type TraceUnit, unpackChunk } from "@/lib/sync/trace-chunk";
import type { TenantTx } from "./tenant";

export type ChunkRefusal =
  | { code: "not-found" }
  | { code: "not-a-chunk"; at: number }
  | { code: "chunk-used-otherwise" };

/** Stores one chunk of a trace, or finds it stored already; its SHA-256 in hex. Chunks are never edited. */
export async function storeChunk(
  tx: TenantTx,
  at: { jobId: JobId; traceId: TraceId; index: number; personId: PersonId },
  packed: Uint8Array<ArrayBuffer>,
): Promise<Result<string, ChunkRefusal>> {
  const chunk = unpackChunk(packed);
  if (!chunk.ok) return err({ code: "not-a-chunk", at: chunk.error.at });
  if ((await tx.circuitJob.count({ where: { id: at.jobId } })) === 0) return err({ code: "not-found" });
  await tx.trace.createMany({
    data: [{ id: at.traceId, jobId: at.jobId, personId: at.personId }],
    skipDuplicates: true,
  });
  if ((await tx.trace.count({ where: { id: at.traceId, jobId: at.jobId } })) === 0) return err({ code: "not-found" });
  const digest = createHash("sha256").update(packed).digest();
  await tx.traceChunk.createMany({
    data: [{ traceId: at.traceId, chunkIndex: at.index, sampleCount: chunk.value.samples.length, packed, digest }],
    skipDuplicates: true,
  });
  const stored = await tx.traceChunk.findFirst({
    where: { traceId: at.traceId, chunkIndex: at.index },
    select: { digest: true },
  });
  if (!stored || !digest.equals(stored.digest)) return err({ code: "chunk-used-otherwise" });
  return ok(digest.toString("hex"));
}

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
    select: { traceId: true, chunkIndex: true, packed: true, digest: true },
  });
  const traces = new Map<TraceId, { unit: TraceUnit; samples: TraceSample[]; chunkDigests: string[] }>();
  for (const { traceId, chunkIndex, packed, digest } of chunks) {
    const chunk = unpackChunk(packed);
    if (!chunk.ok) throw new Error(`stored chunk ${chunkIndex} of trace ${traceId} cannot be read`);
    const trace = traces.get(traceId as TraceId) ?? { unit: chunk.value.unit, samples: [], chunkDigests: [] };
    traces.set(traceId as TraceId, trace);
    if (chunkIndex !== trace.chunkDigests.length || chunk.value.unit !== trace.unit) continue;
    trace.samples.push(...chunk.value.samples);
    trace.chunkDigests.push(Buffer.from(digest).toString("hex"));
  }
  return traces;
}
