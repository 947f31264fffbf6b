import "server-only";
import type { JobId, PersonId, TraceId } from "@/lib/ids";
import { ok, type Result } from "@/lib/result";
import { refreshJob } from "./job-summary";
import type { TenantTx } from "./tenant";
import { type ChunkRefusal, storeChunk } from "./traces";

/**
 * Takes one chunk of a job's trace; its SHA-256 in hex. Where an entry that names the trace came first, the job is folded again:
 * what was judged on half a record is judged on the whole one.
 */
export async function receiveChunk(
  tx: TenantTx,
  at: { jobId: JobId; traceId: TraceId; index: number; personId: PersonId },
  packed: Uint8Array<ArrayBuffer>,
): Promise<Result<string, ChunkRefusal>> {
  const stored = await storeChunk(tx, at, packed);
  if (!stored.ok) return stored;
  if (stored.value.isNew && stored.value.isNamed) await refreshJob(tx, at.jobId);
  return ok(stored.value.digest);
}
