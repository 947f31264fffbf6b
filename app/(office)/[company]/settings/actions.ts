"use server";

import { revalidatePath } from "next/cache";
import type { RegisterFailure } from "@/components/registry/failure";
import { requireMember } from "@/lib/auth/session";
import { findCompany, updateCompany } from "@/lib/db/company";
import { recordOfficeEvent } from "@/lib/db/office-events";
import { withTenant } from "@/lib/db/tenant";
import { changes } from "@/lib/registry/changes";
import { companyForm } from "@/lib/registry/company";
import { readForm } from "@/lib/registry/form";
import { ok, type Result } from "@/lib/result";

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
