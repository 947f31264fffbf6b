import { receiptPublicKey, signReceipt } from "@/lib/auth/receipt-key";
import { office } from "@/lib/auth/roles";
import { listEntries } from "@/lib/db/entries";
import { withTenant } from "@/lib/db/tenant";
import { forMember, notHere } from "@/lib/http/answer";
import { wireOf } from "@/lib/hvac/procedure";
import { JobId } from "@/lib/ids";
import { digestOf } from "@/lib/sync/digest";

/** A job's log with the server's signature under each entry, as a file to keep: it can be checked without the server. */
export async function GET(_request: Request, { params }: { params: Promise<{ company: string; jobId: string }> }) {
  const { company, jobId } = await params;
  return forMember(company, office, async (member) => {
    const id = JobId.safeParse(jobId);
    if (!id.success) return notHere();
    const entries = await withTenant(member.companyId, (tx) => listEntries(tx, id.data));
    if (entries.length === 0) return notHere();
    const receipts = entries.map((logged) => {
      const entry = wireOf(logged);
      const stamp = logged.stamp!; // what the server has is stamped
      return { entry, stamp, signed: signReceipt({ ...entry, digest: digestOf(entry) }, stamp) };
    });
    const file = { form: "dryhold-receipts-1", publicKey: receiptPublicKey(), receipts };
    return Response.json(file, {
      headers: {
        "cache-control": "no-store",
        "content-disposition": `attachment; filename="receipts-${id.data}.json"`,
      },
    });
  });
}
