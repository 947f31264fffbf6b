"use server";

import { revalidatePath } from "next/cache";
import { notFound, redirect } from "next/navigation";
import type { RegisterFailure } from "@/components/registry/failure";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import {
  type CylinderRefusal,
  createCylinder,
  findCylinder,
  setCylinderRetired,
  updateCylinder,
} from "@/lib/db/cylinders";
import { recordOfficeEvent } from "@/lib/db/office-events";
import { withTenant } from "@/lib/db/tenant";
import { CylinderId } from "@/lib/ids";
import { changes } from "@/lib/registry/changes";
import { cylinderForm } from "@/lib/registry/cylinder";
import { readForm, take } from "@/lib/registry/form";
import { err, ok, type Result } from "@/lib/result";

export async function addCylinder(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const fields = readForm(form, cylinderForm);
  if (!fields.ok) return fields;
  const created = await withTenant(companyId, async (tx) => {
    const cylinder = await createCylinder(tx, fields.value);
    if (cylinder.ok)
      await recordOfficeEvent(tx, personId, { what: "created", subject: "cylinder", subjectId: cylinder.value });
    return cylinder;
  });
  if (!created.ok) return refuse(created.error);
  revalidatePath(`/${slug}`, "layout");
  redirect(`/${slug}/cylinders`);
}

export async function changeCylinder(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const id = CylinderId.safeParse(take(form, "cylinderId"));
  if (!id.success) notFound();
  const fields = readForm(form, cylinderForm);
  if (!fields.ok) return fields;
  const changed = await withTenant(companyId, async (tx) => {
    const before = await findCylinder(tx, id.data);
    const outcome = await updateCylinder(tx, id.data, fields.value);
    if (!outcome.ok || !before) return outcome;
    const detail = changes(before, fields.value);
    await recordOfficeEvent(tx, personId, { what: "changed", subject: "cylinder", subjectId: id.data, detail });
    return outcome;
  });
  if (!changed.ok) return refuse(changed.error);
  revalidatePath(`/${slug}`, "layout");
  redirect(`/${slug}/cylinders`);
}

export async function retireCylinder(form: FormData): Promise<Result<null, { code: "gone" }>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const id = CylinderId.safeParse(form.get("cylinderId"));
  if (!id.success) return err({ code: "gone" });
  const retired = form.get("archived") === "true";
  const isThere = await withTenant(companyId, async (tx) => {
    if (!(await setCylinderRetired(tx, id.data, retired))) return false;
    const what = retired ? "retired" : "brought-back";
    await recordOfficeEvent(tx, personId, { what, subject: "cylinder", subjectId: id.data });
    return true;
  });
  revalidatePath(`/${slug}`, "layout");
  return isThere ? ok(null) : err({ code: "gone" });
}

function refuse(refusal: CylinderRefusal): Result<never, RegisterFailure> {
  return refusal.code === "not-found" ? notFound() : err({ code: refusal.code });
}
