"use server";

import { revalidatePath } from "next/cache";
import { notFound, redirect } from "next/navigation";
import * as z from "zod";
import type { RegisterFailure } from "@/components/registry/failure";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { recordOfficeEvent } from "@/lib/db/office-events";
import { withTenant } from "@/lib/db/tenant";
import { addToolEvent } from "@/lib/db/tool-history";
import { createTool, findTool, type HolderRefusal, setToolRetired, updateTool } from "@/lib/db/tools";
import { ToolId } from "@/lib/ids";
import { changes } from "@/lib/registry/changes";
import { type InvalidFields, readForm, take } from "@/lib/registry/form";
import { toolForm } from "@/lib/registry/tool";
import { toolEventForm } from "@/lib/registry/tool-event";
import { toolShown } from "@/lib/registry/tool-shown";
import { err, ok, type Result } from "@/lib/result";

export async function addTool(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const fields = readForm(form, toolForm, ["ratedFor"]);
  if (!fields.ok) return fields;
  const created = await withTenant(companyId, async (tx) => {
    const tool = await createTool(tx, fields.value);
    if (tool.ok) await recordOfficeEvent(tx, personId, { what: "created", subject: "tool", subjectId: tool.value });
    return tool;
  });
  if (!created.ok) return refuse(created.error);
  revalidatePath(`/${slug}`, "layout");
  redirect(`/${slug}/tools`);
}

export async function changeTool(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const id = ToolId.safeParse(take(form, "toolId"));
  const shown = z.string().transform(fromJson).pipe(toolShown).safeParse(take(form, "shown"));
  if (!id.success || !shown.success) notFound();
  const fields = readForm(form, toolForm, ["ratedFor"]);
  if (!fields.ok) return fields;
  const changed = await withTenant(companyId, async (tx) => {
    const before = await findTool(tx, id.data);
    const outcome = await updateTool(tx, id.data, fields.value, shown.data);
    if (!outcome.ok || !before) return outcome;
    const detail = changes(before, outcome.value);
    await recordOfficeEvent(tx, personId, { what: "changed", subject: "tool", subjectId: id.data, detail });
    return outcome;
  });
  if (!changed.ok) return refuse(changed.error);
  revalidatePath(`/${slug}`, "layout");
  redirect(`/${slug}/tools`);
}

export async function retireTool(form: FormData): Promise<Result<null, { code: "gone" }>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const id = ToolId.safeParse(form.get("toolId"));
  if (!id.success) return err({ code: "gone" });
  const retired = form.get("archived") === "true";
  const isThere = await withTenant(companyId, async (tx) => {
    if (!(await setToolRetired(tx, id.data, retired))) return false;
    const what = retired ? "retired" : "brought-back";
    await recordOfficeEvent(tx, personId, { what, subject: "tool", subjectId: id.data });
    return true;
  });
  revalidatePath(`/${slug}`, "layout");
  return isThere ? ok(null) : err({ code: "gone" });
}

/** What became of a tool: the office writes it down, and whoever holds it. */
export async function writeToolEvent(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office, "technician");
  const id = ToolId.safeParse(take(form, "toolId"));
  if (!id.success) notFound();
  const fields = readForm(form, toolEventForm, []);
  if (!fields.ok) return fields;
  const written = await withTenant(companyId, async (tx) => {
    const event = await addToolEvent(tx, id.data, fields.value, personId);
    if (event.ok)
      await recordOfficeEvent(tx, personId, { what: fields.value.what, subject: "tool", subjectId: id.data });
    return event;
  });
  if (!written.ok) {
    const { code } = written.error;
    if (code === "not-found") notFound();
    return err({ code: code === "not-of-this-kind" ? "gone" : code });
  }
  revalidatePath(`/${slug}`, "layout");
  return ok(null);
}

function refuse(refusal: HolderRefusal | InvalidFields): Result<never, RegisterFailure> {
  if (refusal.code === "invalid-fields") return err(refusal);
  return refusal.code === "not-found" ? notFound() : err({ code: refusal.code });
}

function fromJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
