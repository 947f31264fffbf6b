"use server";

import { revalidatePath } from "next/cache";
import type { RegisterFailure } from "@/components/registry/failure";
import { requireMember } from "@/lib/auth/session";
import { findCompany, updateCompany, updateTightenings } from "@/lib/db/company";
import { recordOfficeEvent } from "@/lib/db/office-events";
import { withTenant } from "@/lib/db/tenant";
import { changes } from "@/lib/registry/changes";
import { companyForm } from "@/lib/registry/company";
import { readForm } from "@/lib/registry/form";
import { tighteningForm, tighteningRows } from "@/lib/registry/tightening";
import { ok, type Result } from "@/lib/result";
import { dayAt } from "@/lib/work/site-time";

export async function changeCompany(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), "supervisor", "owner");
  const fields = readForm(form, companyForm);
  if (!fields.ok) return fields;
  await withTenant(companyId, async (tx) => {
    const detail = changes(await findCompany(tx), fields.value);
    await updateCompany(tx, fields.value);
    await recordOfficeEvent(tx, personId, { what: "changed", subject: "company", subjectId: companyId, detail });
  });
  revalidatePath(`/${slug}`, "layout");
  return ok(null);
}

/** What the company asks of every hold beyond the default, for jobs opened from now on. */
export async function changeTightenings(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { slug, companyId, personId, timeZone } = await requireMember(form.get("company"), "supervisor", "owner");
  const fields = readForm(form, tighteningForm);
  if (!fields.ok) return fields;
  await withTenant(companyId, async (tx) => {
    await updateTightenings(tx, tighteningRows(fields.value, dayAt(new Date(), timeZone)));
    const detail = { ...fields.value };
    await recordOfficeEvent(tx, personId, {
      what: "criteria-tightened",
      subject: "company",
      subjectId: companyId,
      detail,
    });
  });
  revalidatePath(`/${slug}/settings`);
  return ok(null);
}
