import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { LinkButton } from "@/components/ui/button";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { SubmitButton } from "@/components/ui/submit-button";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { writeCertificate } from "@/lib/certificate";
import { type CertificateLink, listCertificateLinks } from "@/lib/db/certificate-links";
import { readCertificateSource } from "@/lib/db/certificate-source";
import { withTenant } from "@/lib/db/tenant";
import { JobId } from "@/lib/ids";
import { whenInFull } from "@/lib/work/site-time";
import { DownloadCertificate } from "./_components/download-certificate";
import { revokeLink } from "./actions";

export const metadata: Metadata = { title: "Certificate" };

/** A job's certificate to download, and the links its papers can be checked by. */
export default async function CertificatePage({ params }: { params: Promise<{ company: string; jobId: string }> }) {
  const { company, jobId } = await params;
  const member = await requireMember(company);
  const id = JobId.safeParse(jobId);
  if (!id.success) notFound();
  const found = await withTenant(member.companyId, async (tx) => {
    const source = await readCertificateSource(tx, id.data, member.companyName);
    return source && { source, links: await listCertificateLinks(tx, id.data) };
  });
  if (!found) notFound();
  const { source, links } = found;
  const certificate = writeCertificate({ ...source, checkUrl: null });
  const here = `/${company}/jobs/${id.data}`;
  const mayRevoke = office.some((role) => member.roles.includes(role));
  return (
    <>
      <PageHeader
        title={`Certificate, job ${source.job.number}`}
        lead={`${source.job.unit.name}, ${source.job.circuitName}. ${source.job.customer}, ${source.job.site.name}.`}
        back={{ href: here, label: `Job ${source.job.number}` }}
      />
      {certificate.ok ? (
        <Section
          title="The paper"
          lead="One page in plain words, then the record behind it. Each download gets an address of its own, printed on it as a square code, by which its holder can check it."
        >
          <div className="flex flex-wrap items-start gap-3">
            <DownloadCertificate address={`${here}/certificate/file`} fileName={certificate.value.fileName} />
            <LinkButton href={`${here}/certificate/file`} download kind="plain">
              Without an address
            </LinkButton>
          </div>
        </Section>
      ) : (
        <EmptyState title={refusalTitle[certificate.error.code]}>
          <p>Only a closed job has a certificate. What is missing stands on the job's page.</p>
        </EmptyState>
      )}
      <Section
        title="Addresses papers can be checked by"
        lead="Whoever holds the paper sees whether digest and verdict still match, and nothing about the customer or the people. An address that is taken back stays taken back."
      >
        {links.length === 0 && <p className="text-ink-soft">No paper with an address has been made yet.</p>}
        <ul className="grid">
          {links.map((link) => (
            <li key={link.id} className="flex flex-wrap items-center gap-x-6 gap-y-2 border-b border-hairline py-2">
              <LinkFacts link={link} nameOf={(person) => source.names.get(person)} zone={source.job.site.timeZone} />
              {!link.revoked_at && mayRevoke && (
                <form action={revokeLink}>
                  <input type="hidden" name="company" value={company} />
                  <input type="hidden" name="jobId" value={id.data} />
                  <input type="hidden" name="linkId" value={link.id} />
                  <SubmitButton kind="danger">Take back</SubmitButton>
                </form>
              )}
            </li>
          ))}
        </ul>
      </Section>
    </>
  );
}

const refusalTitle = {
  "not-closed": "The job is not closed yet",
  stale: "Entries came after closing: the job is open again",
};

function LinkFacts(props: { link: CertificateLink; nameOf: (person: string) => string | undefined; zone: string }) {
  const { link, nameOf, zone } = props;
  const by = (person: string) => nameOf(person) ?? "somebody no longer here";
  return (
    <span className="grid grow gap-0.5">
      <span>
        Made {whenInFull(link.made_at, zone)} by {by(link.made_by)}, digest{" "}
        <span className="font-mono">{link.digest.slice(0, 8)}</span>
      </span>
      {link.revoked_at && link.revoked_by ? (
        <StateMark
          state="cannot-say"
          word={`Taken back ${whenInFull(link.revoked_at, zone)} by ${by(link.revoked_by)}`}
        />
      ) : (
        <StateMark state="proven" word="Can be checked" />
      )}
    </span>
  );
}
