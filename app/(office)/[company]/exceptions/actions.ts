"use server";

import { revalidatePath } from "next/cache";
import { notFound } from "next/navigation";
import * as z from "zod";
import { requireMember } from "@/lib/auth/session";
import { readJob } from "@/lib/db/job-summary";
import { findJob } from "@/lib/db/jobs";
import { appendOfficeEntry } from "@/lib/db/office-entry";
import { withTenant } from "@/lib/db/tenant";
import { EntryId, JobId } from "@/lib/ids";
import { paragraph } from "@/lib/registry/fields";
import { type InvalidFields, invalidFields, readForm } from "@/lib/registry/form";
import { ok, type Result } from "@/lib/result";

const answerForm = z.strictObject({
  jobId: JobId,
  ask: EntryId,
  granted: z.enum(["yes", "no"]),
  why: paragraph(1000).refine((text) => text !== "", "Give the reason: it stays in the log."),
});

/** A supervisor's answer to an override that waits, written into the job's log. */
export async function answerOverride(_previous: unknown, form: FormData): Promise<Result<null, InvalidFields>> {
  const member = await requireMember(form.get("company"), "supervisor");
  const read = readForm(form, answerForm);
  if (!read.ok) return read;
  const { jobId, ask, granted, why } = read.value;
  const answered = await withTenant(member.companyId, async (tx) => {
    if (!(await findJob(tx, jobId))) return "no-job" as const;
    const { state } = await readJob(tx, jobId);
    if (!state.overrides.some((each) => each.ask === ask && each.answer === "none")) return "answered" as const;
    await appendOfficeEntry(tx, jobId, member, {
      kind: "override-answered",
      body: { asks: ask, granted: granted === "yes", why },
    });
    return "written" as const;
  });
  if (answered === "no-job") notFound();
  if (answered === "answered") return invalidFields({ "": "This was answered meanwhile. Load the page to see how." });
  revalidatePath(`/${member.slug}`, "layout");
  return ok(null);
}

/** Marks something in quarantine as looked at; it stays there. */
export async function reviewQuarantined(form: FormData): Promise<void> {
  const member = await requireMember(form.get("company"), "supervisor");
  const id = z.uuid().safeParse(form.get("id"));
  if (!id.success) notFound();
  await withTenant(member.companyId, (tx) =>
    tx.quarantine.updateMany({
      where: { id: id.data, reviewedAt: null },
      data: { reviewedAt: new Date(), reviewedBy: member.personId },
    }),
  );
  revalidatePath(`/${member.slug}/exceptions`);
}
