"use server";

import { revalidatePath } from "next/cache";
import { notFound } from "next/navigation";
import * as z from "zod";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { revokeCertificateLink } from "@/lib/db/certificate-links";
import { withTenant } from "@/lib/db/tenant";
import { JobId } from "@/lib/ids";

/** Takes a paper's link back: from now on its address says so and nothing else. */
export async function revokeLink(form: FormData): Promise<void> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const jobId = JobId.safeParse(form.get("jobId"));
  const id = z.uuid().safeParse(form.get("linkId"));
  if (!jobId.success || !id.success) notFound();
  await withTenant(companyId, (tx) => revokeCertificateLink(tx, jobId.data, id.data, personId));
  revalidatePath(`/${slug}/jobs/${jobId.data}/certificate`);
}
