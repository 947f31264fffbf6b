"use server";

import { revalidatePath } from "next/cache";
import { notFound, redirect } from "next/navigation";
import type { RegisterFailure } from "@/components/registry/failure";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { createCircuit, findCircuit, setCircuitArchived, updateCircuit } from "@/lib/db/circuits";
import { createEquipment, findEquipment, setEquipmentArchived, updateEquipment } from "@/lib/db/equipment";
import { recordOfficeEvent } from "@/lib/db/office-events";
import { withTenant } from "@/lib/db/tenant";
import { CircuitId, EquipmentId, SiteId } from "@/lib/ids";
import { changes } from "@/lib/registry/changes";
import { circuitForm } from "@/lib/registry/circuit";
import { equipmentForm } from "@/lib/registry/equipment";
import { readForm, take } from "@/lib/registry/form";
import { err, ok, type Result } from "@/lib/result";

export async function addUnit(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const siteId = SiteId.safeParse(take(form, "siteId"));
  if (!siteId.success) notFound();
  const fields = readForm(form, equipmentForm);
  if (!fields.ok) return fields;
  const id = await withTenant(companyId, async (tx) => {
    const created = await createEquipment(tx, siteId.data, fields.value);
    if (created) await recordOfficeEvent(tx, personId, { what: "created", subject: "equipment", subjectId: created });
    return created;
  });
  if (!id) notFound();
  revalidatePath(`/${slug}`, "layout");
  redirect(`/${slug}/equipment/${id}/circuits/new`);
}

export async function changeUnit(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const id = EquipmentId.safeParse(take(form, "equipmentId"));
  if (!id.success) notFound();
  const fields = readForm(form, equipmentForm);
  if (!fields.ok) return fields;
  const isThere = await withTenant(companyId, async (tx) => {
    const before = await findEquipment(tx, id.data);
    if (!before || !(await updateEquipment(tx, id.data, fields.value))) return false;
    const detail = changes(before, fields.value);
    await recordOfficeEvent(tx, personId, { what: "changed", subject: "equipment", subjectId: id.data, detail });
    return true;
  });
  if (!isThere) notFound();
  revalidatePath(`/${slug}`, "layout");
  redirect(`/${slug}/equipment/${id.data}`);
}

export async function archiveUnit(form: FormData): Promise<Result<null, { code: "gone" }>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const id = EquipmentId.safeParse(form.get("equipmentId"));
  if (!id.success) return err({ code: "gone" });
  const archived = form.get("archived") === "true";
  const isThere = await withTenant(companyId, async (tx) => {
    if (!(await setEquipmentArchived(tx, id.data, archived))) return false;
    const what = archived ? "archived" : "brought-back";
    await recordOfficeEvent(tx, personId, { what, subject: "equipment", subjectId: id.data });
    return true;
  });
  revalidatePath(`/${slug}`, "layout");
  return isThere ? ok(null) : err({ code: "gone" });
}

export async function addCircuit(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const equipmentId = EquipmentId.safeParse(take(form, "equipmentId"));
  if (!equipmentId.success) notFound();
  const fields = readForm(form, circuitForm);
  if (!fields.ok) return fields;
  const id = await withTenant(companyId, async (tx) => {
    const created = await createCircuit(tx, equipmentId.data, fields.value);
    if (created) await recordOfficeEvent(tx, personId, { what: "created", subject: "circuit", subjectId: created });
    return created;
  });
  if (!id) notFound();
  revalidatePath(`/${slug}`, "layout");
  redirect(`/${slug}/equipment/${equipmentId.data}`);
}

export async function changeCircuit(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const id = CircuitId.safeParse(take(form, "circuitId"));
  if (!id.success) notFound();
  const fields = readForm(form, circuitForm);
  if (!fields.ok) return fields;
  const equipmentId = await withTenant(companyId, async (tx) => {
    const before = await findCircuit(tx, id.data);
    if (!before || !(await updateCircuit(tx, id.data, fields.value))) return null;
    const detail = changes(before, { ...fields.value });
    await recordOfficeEvent(tx, personId, { what: "changed", subject: "circuit", subjectId: id.data, detail });
    return before.equipment.id;
  });
  if (!equipmentId) notFound();
  revalidatePath(`/${slug}`, "layout");
  redirect(`/${slug}/equipment/${equipmentId}`);
}

export async function archiveCircuit(form: FormData): Promise<Result<null, { code: "gone" }>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const id = CircuitId.safeParse(form.get("circuitId"));
  if (!id.success) return err({ code: "gone" });
  const archived = form.get("archived") === "true";
  const isThere = await withTenant(companyId, async (tx) => {
    if (!(await setCircuitArchived(tx, id.data, archived))) return false;
    const what = archived ? "archived" : "brought-back";
    await recordOfficeEvent(tx, personId, { what, subject: "circuit", subjectId: id.data });
    return true;
  });
  revalidatePath(`/${slug}`, "layout");
  return isThere ? ok(null) : err({ code: "gone" });
}
