import "server-only";
import { createHash } from "node:crypto";
import type { CompanyId, JobId, PersonId, TraceId } from "@/lib/ids";
import { err, ok, type Result } from "@/lib/result";
import { countSamples } from "@/lib/sync/trace-chunk";
import { refreshJob } from "./job-summary";
import { tenantStatement, withTenant } from "./tenant";

export type ChunkRefusal =
  | { code: "not-found" }
  | { code: "not-a-chunk"; at: number }
  | { code: "chunk-used-otherwise" };

type Stored = "added" | "added-late" | "known" | "named" | "not-found" | "used-otherwise";

/**
 * Takes one chunk of a job's trace, or finds it received already; its SHA-256 in hex, once it is committed. Chunks are never edited.
 * Where an entry that names the trace came first, the job is folded again: what was judged on half a record is judged on the whole one.
 */
export async function receiveChunk(
  company: CompanyId,
  at: { jobId: JobId; traceId: TraceId; index: number; personId: PersonId },
  packed: Uint8Array,
): Promise<Result<string, ChunkRefusal>> {
  const count = countSamples(packed);
  if (!count.ok) return err({ code: "not-a-chunk", at: count.error.at });
  const digest = createHash("sha256").update(packed).digest();
  const { jobId, traceId, personId, index } = at;
  const values = [company, jobId, traceId, personId, index, count.value, Buffer.from(packed), digest] as const;
  const [row] = await tenantStatement<{ stored: Stored }>(`${STORE}, false) as stored` as const, values);
  const stored = row?.stored === "named" ? await storeLate() : row?.stored;
  switch (stored) {
    case "added":
    case "added-late":
    case "known":
      return ok(digest.toString("hex"));
    case "not-found":
      return err({ code: "not-found" });
    case "used-otherwise":
      return err({ code: "chunk-used-otherwise" });
    default:
      throw new Error(`a chunk was stored as ${stored}`);
  }

  function storeLate(): Promise<Stored | undefined> {
    return withTenant(company, async (tx) => {
      const [late] = await tx.$queryRawUnsafe<{ stored: Stored }[]>(`${STORE}, true) as stored`, ...values);
      if (late?.stored === "added-late") await refreshJob(tx, jobId);
      return late?.stored;
    });
  }
}

const STORE =
  "select store_chunk($1::uuid, $2::uuid, $3::uuid, $4::uuid, $5::int, $6::int, $7::bytea, $8::bytea" as const;
