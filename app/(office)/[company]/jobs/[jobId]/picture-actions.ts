"use server";

import { revalidatePath } from "next/cache";
import { notFound } from "next/navigation";
import { requireMember } from "@/lib/auth/session";
import { erasePicture } from "@/lib/db/pictures";
import { withTenant } from "@/lib/db/tenant";
import { AttachmentId, JobId } from "@/lib/ids";

/** Erases a photo or a signature for good; an owner or a supervisor decides it. */
export async function erase(form: FormData): Promise<void> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), "owner", "supervisor");
  const jobId = JobId.safeParse(form.get("jobId"));
  const id = AttachmentId.safeParse(form.get("pictureId"));
  if (!jobId.success || !id.success) notFound();
  await withTenant(companyId, (tx) => erasePicture(tx, jobId.data, id.data, personId));
  revalidatePath(`/${slug}/jobs/${jobId.data}`);
}
