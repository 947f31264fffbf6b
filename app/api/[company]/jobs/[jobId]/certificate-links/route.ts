import { certificateLinkWire } from "@/lib/certificate/schema";
import { makeCertificateLink } from "@/lib/db/certificate-links";
import { findJob } from "@/lib/db/jobs";
import { withTenant } from "@/lib/db/tenant";
import { answer, forMember, notHere, refuse, refuseBody } from "@/lib/http/answer";
import { readJson } from "@/lib/http/read-body";
import { JobId } from "@/lib/ids";

/** A link a tablet printed on a paper while it may have had no network; sent again it changes nothing. */
export async function POST(request: Request, { params }: { params: Promise<{ company: string; jobId: string }> }) {
  const { company, jobId } = await params;
  return forMember(company, ["technician", "supervisor"], async (member) => {
    const id = JobId.safeParse(jobId);
    if (!id.success) return notHere();
    const body = await readJson(request, 10_000);
    if (!body.ok) return refuseBody(body.error);
    const link = certificateLinkWire.safeParse(body.value);
    if (!link.success) return refuse(400, "malformed-request", "id, tokenHash and paper, as the certificate has them.");
    const known = await withTenant(member.companyId, async (tx) => {
      if (!(await findJob(tx, id.data))) return false;
      await makeCertificateLink(tx, { ...link.data, jobId: id.data }, member.personId);
      return true;
    });
    return known ? answer({ id: link.data.id }) : notHere();
  });
}
