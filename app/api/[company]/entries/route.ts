import * as z from "zod";
import { receiveEntries } from "@/lib/db/receive-entries";
import { withTenant } from "@/lib/db/tenant";
import { answer, forMember, refuse, refuseBody } from "@/lib/http/answer";
import { readJson } from "@/lib/http/read-body";

const MAX_BYTES = 1_048_576;
const MAX_ENTRIES = 200;

const parcel = z.strictObject({ entries: z.array(z.unknown()).min(1).max(MAX_ENTRIES) });

/**
 * A device sends log entries. 200 when each was received (or had been before), 422 when some went to quarantine: the receipts of the
 * others hold all the same. Receipts are given after commit, so what is acknowledged is never lost.
 */
export async function POST(request: Request, { params }: { params: Promise<{ company: string }> }) {
  return forMember((await params).company, [], async (member) => {
    const body = await readJson(request, MAX_BYTES);
    if (!body.ok) return refuseBody(body.error);
    const sent = parcel.safeParse(body.value);
    if (!sent.success)
      return refuse(400, "malformed-request", `Send { "entries": [...] } with 1 to ${MAX_ENTRIES} entries.`);
    const received = await withTenant(member.companyId, (tx) => receiveEntries(tx, member, sent.data.entries));
    return answer(received, received.quarantined.length === 0 ? 200 : 422);
  });
}
