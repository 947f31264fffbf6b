import "server-only";
import type { CertificateSource } from "@/lib/certificate";
import type { JobId } from "@/lib/ids";
import { readJob } from "./job-summary";
import { findJob, listMemberNames } from "./jobs";
import type { TenantTx } from "./tenant";

/** What a job's certificate is made of; null when the company has no such job. */
export async function readCertificateSource(
  tx: TenantTx,
  jobId: JobId,
  companyName: string,
): Promise<Omit<CertificateSource, "checkUrl"> | null> {
  const job = await findJob(tx, jobId);
  if (!job) return null;
  const { serviceCall: call } = job.workOrder;
  return {
    companyName,
    job: {
      number: Number(job.number),
      customer: call.customer.name,
      site: call.site,
      unit: job.circuit.equipment,
      circuitName: job.circuit.name,
    },
    names: await listMemberNames(tx),
    ...(await readJob(tx, jobId)),
  };
}
