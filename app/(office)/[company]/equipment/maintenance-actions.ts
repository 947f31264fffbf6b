"use server";

import { revalidatePath } from "next/cache";
import { notFound } from "next/navigation";
import type { RegisterFailure } from "@/components/registry/failure";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { addMaintenancePlan, endMaintenancePlan } from "@/lib/db/maintenance";
import { withTenant } from "@/lib/db/tenant";
import { isUuid } from "@/lib/ids";
import { readForm } from "@/lib/registry/form";
import { ok, type Result } from "@/lib/result";
import { maintenanceForm } from "@/lib/work/periodic-maintenance";

/** Adds a maintenance plan to a unit; its calls come by themselves. */
export async function addPlan(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const read = readForm(form, maintenanceForm);
  if (!read.ok) return read;
  const id = await withTenant(companyId, (tx) => addMaintenancePlan(tx, read.value, personId));
  if (id === null) notFound();
  revalidatePath(`/${slug}/equipment/${read.value.equipmentId}`);
  return ok(null);
}

/** Ends a plan; calls it has made stay. */
export async function endPlan(form: FormData): Promise<void> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const id = form.get("planId");
  if (!isUuid(id)) notFound();
  await withTenant(companyId, (tx) => endMaintenancePlan(tx, id, personId));
  revalidatePath(`/${slug}/equipment`, "layout");
}
