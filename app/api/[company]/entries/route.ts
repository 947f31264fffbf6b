import * as z from "zod";
import { signReceipt } from "@/lib/auth/receipt-key";
import { countQuarantined, receiveEntries } from "@/lib/db/receive-entries";
import { withTenant } from "@/lib/db/tenant";
import { answer, forMemberOrFormer, notHere, refuse, refuseBody } from "@/lib/http/answer";
import { readJson } from "@/lib/http/read-body";

const MAX_BYTES = 1_048_576;
const MAX_ENTRIES = 200;
/** Far more than a tablet holds unsent, and not enough to fill a disk out of spite. */
const MOST_OF_FORMER_MEMBER = 5000;

const parcel = z.strictObject({ entries: z.array(z.unknown()).min(1).max(MAX_ENTRIES) });

/**
 * A device sends log entries. 200 when each was received (or had been before), 422 when some went to quarantine: the receipts of the
 * others hold all the same. Receipts are given after commit, so what is acknowledged is never lost.
 */
export async function POST(request: Request, { params }: { params: Promise<{ company: string }> }) {
  return forMemberOrFormer((await params).company, async (member) => {
    const body = await readJson(request, MAX_BYTES);
    if (!body.ok) return refuseBody(body.error);
    const sent = parcel.safeParse(body.value);
    if (!sent.success)
      return refuse(400, "malformed-request", `Send { "entries": [...] } with 1 to ${MAX_ENTRIES} entries.`);
    const received = await withTenant(member.companyId, async (tx) =>
      member.roles.length === 0 && (await countQuarantined(tx, member.personId)) >= MOST_OF_FORMER_MEMBER
        ? null
        : receiveEntries(tx, member, sent.data.entries),
    );
    if (received === null) return notHere();
    const { companyId: company } = member;
    const receipts = received.receipts.map(({ stamp, ...entry }) => ({
      id: entry.id,
      stamp,
      signed: signReceipt({ ...entry, company }, stamp),
    }));
    return answer({ ...received, receipts }, received.quarantined.length === 0 ? 200 : 422);
  });
}
