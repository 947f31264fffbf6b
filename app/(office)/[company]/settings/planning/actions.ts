"use server";

import { revalidatePath } from "next/cache";
import type { RegisterFailure } from "@/components/registry/failure";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { findPlanningRules, setPlanningRules } from "@/lib/db/dispatch/planning-rules";
import { recordOfficeEvent } from "@/lib/db/office-events";
import { withTenant } from "@/lib/db/tenant";
import { changes } from "@/lib/registry/changes";
import { readForm } from "@/lib/registry/form";
import { planningRulesForm } from "@/lib/registry/planning-rules";
import { ok, type Result } from "@/lib/result";

export async function changePlanningRules(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { slug, companyId, personId, ruleSet } = await requireMember(form.get("company"), ...office);
  const fields = readForm(form, planningRulesForm);
  if (!fields.ok) return fields;
  await withTenant(companyId, async (tx) => {
    const detail = changes({ ...(await findPlanningRules(tx, ruleSet)) }, fields.value);
    await setPlanningRules(tx, fields.value);
    await recordOfficeEvent(tx, personId, {
      what: "planning-changed",
      subject: "company",
      subjectId: companyId,
      detail,
    });
  });
  revalidatePath(`/${slug}`, "layout");
  return ok(null);
}
