import "server-only";
import type { PaperFacts } from "@/lib/certificate";
import { foldJob, judgeProof, proofFacts } from "@/lib/hvac/procedure";
import type { JobId, PersonId } from "@/lib/ids";
import { closingDigest } from "@/lib/sync/digest";
import { rememberedJudges } from "@/lib/sync/remembered-judges";
import { traceShelf } from "@/lib/sync/trace";
import { listEntries } from "./entries";
import type { ReadJob } from "./job-summary";
import { recordOfficeEvent } from "./office-events";
import type { TenantTx } from "./tenant";
import { readTraces } from "./traces";

export interface NewCertificateLink {
  readonly id: string;
  /** SHA-256 of the secret part, in hex: the secret itself is on the paper alone. */
  readonly tokenHash: string;
  readonly jobId: JobId;
  readonly paper: PaperFacts;
}

/** Makes a link to check a paper by, with its event; the same link sent again changes nothing. The job must be the company's. */
export async function makeCertificateLink(tx: TenantTx, link: NewCertificateLink, by: PersonId): Promise<void> {
  const { id, tokenHash, jobId, paper } = link;
  const [row] = await tx.$queryRaw<{ made: boolean }[]>`
    select gate.make_certificate_link(${id}::uuid, ${Buffer.from(tokenHash, "hex")}, ${jobId}::uuid, ${paper.digest},
      ${paper.strength}, ${JSON.stringify(paper.verdicts)}::jsonb, ${by}::uuid) as made`;
  if (!row!.made) return;
  const detail = { link: id, digest: paper.digest };
  await recordOfficeEvent(tx, by, { what: "certificate-link-made", subject: "circuit-job", subjectId: jobId, detail });
}

export interface CertificateLink {
  readonly id: string;
  readonly digest: string;
  readonly made_by: string;
  readonly made_at: Date;
  readonly revoked_by: string | null;
  readonly revoked_at: Date | null;
}

/** The links of a job's papers, newest first, also those taken back. */
export function listCertificateLinks(tx: TenantTx, jobId: JobId): Promise<CertificateLink[]> {
  return tx.$queryRaw<CertificateLink[]>`select * from gate.list_certificate_links(${jobId}::uuid)`;
}

/** Takes a link back for good, with its event; false when there is none to take back. */
export async function revokeCertificateLink(tx: TenantTx, jobId: JobId, id: string, by: PersonId): Promise<boolean> {
  const [row] = await tx.$queryRaw<{ revoked: boolean }[]>`
    select gate.revoke_certificate_link(${jobId}::uuid, ${id}::uuid, ${by}::uuid) as revoked`;
  if (!row!.revoked) return false;
  const event = { what: "certificate-link-revoked", subject: "circuit-job", subjectId: jobId, detail: { link: id } };
  await recordOfficeEvent(tx, by, event as Parameters<typeof recordOfficeEvent>[2]);
  return true;
}

/** A job computed again from what is stored, without any verdict kept from earlier. */
export async function recomputeJob(tx: TenantTx, jobId: JobId): Promise<ReadJob> {
  const entries = await listEntries(tx, jobId);
  const traces = await readTraces(tx, jobId);
  const state = foldJob(entries, { judges: rememberedJudges, closingDigest, traces: traceShelf(traces) });
  return { entries, traces, state, proof: judgeProof(proofFacts(state, entries)) };
}
