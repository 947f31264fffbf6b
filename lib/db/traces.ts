import "server-only";
import { createHash } from "node:crypto";
import type { JobId, PersonId, TraceId } from "@/lib/ids";
import { err, ok, type Result } from "@/lib/result";
import type { KnownTrace } from "@/lib/sync/trace";
import { type TraceSample, type TraceUnit, unpackChunk } from "@/lib/sync/trace-chunk";
import { lockLog } from "./entries";
import type { TenantTx } from "./tenant";

export type ChunkRefusal =
  | { code: "not-found" }
  | { code: "not-a-chunk"; at: number }
  | { code: "chunk-used-otherwise" };

export interface StoredChunk {
  /** SHA-256 in hex. */
  readonly digest: string;
  readonly isNew: boolean;
  /** Whether an entry of the job names the trace already: it was then judged without this chunk. */
  readonly isNamed: boolean;
}

/** Stores one chunk of a trace, or finds it stored already. Chunks are never edited. */
export async function storeChunk(
  tx: TenantTx,
  at: { jobId: JobId; traceId: TraceId; index: number; personId: PersonId },
  packed: Uint8Array<ArrayBuffer>,
): Promise<Result<StoredChunk, ChunkRefusal>> {
  const chunk = unpackChunk(packed);
  if (!chunk.ok) return err({ code: "not-a-chunk", at: chunk.error.at });
  // The log stands still, so that an entry on its way at the same time either sees the chunk or is seen here.
  if (!(await lockLog(tx, at.jobId))) return err({ code: "not-found" });
  const digest = createHash("sha256").update(packed).digest();
  const [stored] = await tx.$queryRaw<{ owned: boolean; added: boolean; known: Uint8Array | null; named: boolean }[]>`
    with made as (
      insert into trace (id, job_id, person_id) values (${at.traceId}::uuid, ${at.jobId}::uuid, ${at.personId}::uuid)
        on conflict do nothing returning 1
    ), owned as (
      select 1 from made union all select 1 from trace where id = ${at.traceId}::uuid and job_id = ${at.jobId}::uuid
    ), added as (
      insert into trace_chunk (trace_id, chunk_index, sample_count, packed, digest)
        select ${at.traceId}::uuid, ${at.index}::int, ${chunk.value.samples.length}::int, ${packed}::bytea, ${digest}::bytea
        from owned on conflict do nothing returning 1
    )
    select exists (table owned) as owned, exists (table added) as added,
      (select digest from trace_chunk where trace_id = ${at.traceId}::uuid and chunk_index = ${at.index}::int) as known,
      exists (select 1 from entry where job_id = ${at.jobId}::uuid and kind = 'step-recorded'
        and wire #>> '{body,evidence,record,trace,traceId}' = ${at.traceId}) as named`;
  if (!stored?.owned) return err({ code: "not-found" });
  if (!stored.added && !(stored.known && digest.equals(stored.known))) return err({ code: "chunk-used-otherwise" });
  return ok({ digest: digest.toString("hex"), isNew: stored.added, isNamed: stored.named });
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
