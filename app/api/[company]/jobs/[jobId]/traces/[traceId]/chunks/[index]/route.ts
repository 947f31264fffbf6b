import * as z from "zod";
import { receiveChunk } from "@/lib/db/receive-chunk";
import { withTenant } from "@/lib/db/tenant";
import { findChunk } from "@/lib/db/traces";
import { answer, atAddress, notHere, refuse, refuseBody } from "@/lib/http/answer";
import { readBytes } from "@/lib/http/read-body";
import { JobId, TraceId } from "@/lib/ids";

const MAX_BYTES = 262_144;

const address = z.object({
  company: z.string(),
  jobId: JobId,
  traceId: TraceId,
  index: z.coerce.number<string>().int().min(0).max(100_000),
});
type Context = { params: Promise<Record<"company" | "jobId" | "traceId" | "index", string>> };

/**
 * A device sends one packed chunk of a trace; sending it again changes nothing. Whatever the member's roles are by now: readings count
 * only through an entry that names them, and it is the entry's author who must be allowed to write it.
 */
export async function PUT(request: Request, context: Context) {
  return atAddress(context, address, async (member, at) => {
    const body = await readBytes(request, MAX_BYTES);
    if (!body.ok) return refuseBody(body.error);
    const stored = await receiveChunk(member.companyId, { ...at, personId: member.personId }, body.value);
    if (stored.ok) return answer({ digest: stored.value });
    switch (stored.error.code) {
      case "not-found":
        return notHere();
      case "not-a-chunk":
        return refuse(400, "not-a-chunk", `This is not a chunk of readings (byte ${stored.error.at}).`);
      case "chunk-used-otherwise":
        return refuse(
          409,
          "chunk-used-otherwise",
          "Another chunk with this number was received before; readings are never replaced.",
        );
    }
  });
}

/** The chunk's bytes as they were received. */
export async function GET(_request: Request, context: Context) {
  return atAddress(context, address, async (member, at) => {
    const packed = await withTenant(member.companyId, (tx) => findChunk(tx, at.jobId, at.traceId, at.index));
    if (!packed) return notHere();
    return new Response(packed, {
      headers: { "content-type": "application/octet-stream", "cache-control": "no-store" },
    });
  });
}
