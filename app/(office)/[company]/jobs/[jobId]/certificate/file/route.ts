import { v7 as uuidv7 } from "uuid";
import { drawCertificate } from "@/components/certificate/certificate-pdf";
import { serverFonts } from "@/components/certificate/server-fonts";
import type { Member } from "@/lib/auth/session";
import { checkTokenHash, newCheckToken, writeCertificate } from "@/lib/certificate";
import { makeCertificateLink } from "@/lib/db/certificate-links";
import { readCertificateSource } from "@/lib/db/certificate-source";
import { withTenant } from "@/lib/db/tenant";
import { servingEnv } from "@/lib/env";
import { forMember, notHere, refuse } from "@/lib/http/answer";
import { JobId } from "@/lib/ids";

type Asked = { params: Promise<{ company: string; jobId: string }> };

/** The certificate without a link: it cannot be checked by who holds it. */
export async function GET(_request: Request, { params }: Asked) {
  const { company, jobId } = await params;
  return forMember(company, [], (member) => answerCertificate(member, jobId, false));
}

/** The certificate with a link of its own, made now. */
export async function POST(_request: Request, { params }: Asked) {
  const { company, jobId } = await params;
  return forMember(company, [], (member) => answerCertificate(member, jobId, true));
}

async function answerCertificate(member: Member, jobId: string, withLink: boolean): Promise<Response> {
  const id = JobId.safeParse(jobId);
  if (!id.success) return notHere();
  const token = withLink ? newCheckToken((bytes) => crypto.getRandomValues(bytes)) : null;
  const checkUrl = token && `${servingEnv().NEXTAUTH_URL}/check/${token}`;
  const written = await withTenant(member.companyId, async (tx) => {
    const source = await readCertificateSource(tx, id.data, member.companyName);
    const written = source && writeCertificate({ ...source, checkUrl });
    if (token && written?.ok) {
      const link = { id: uuidv7(), tokenHash: checkTokenHash(token), jobId: id.data, paper: written.value.paper };
      await makeCertificateLink(tx, link, member.personId);
    }
    return written;
  });
  if (!written) return notHere();
  if (!written.ok) return refuse(409, written.error.code, "Only a closed job has a certificate.");
  const pdf = await drawCertificate(written.value, await serverFonts());
  return new Response(pdf, {
    headers: {
      "content-type": "application/pdf",
      "content-disposition": `attachment; filename="${written.value.fileName}"`,
      "cache-control": "private, no-store",
    },
  });
}
