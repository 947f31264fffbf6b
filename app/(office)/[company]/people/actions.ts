"use server";

import { createHash, randomBytes } from "node:crypto";
import { revalidatePath } from "next/cache";
import { notFound } from "next/navigation";
import { v7 as uuidv7 } from "uuid";
import * as z from "zod";
import type { RegisterFailure } from "@/components/registry/failure";
import { requireMember } from "@/lib/auth/session";
import { addCertificate, removeCertificate } from "@/lib/db/certificates";
import { invite, withdrawInvitation } from "@/lib/db/gate";
import { findMemberOf, isMemberAddress, type MemberRefusal, updateMember } from "@/lib/db/members";
import { recordOfficeEvent } from "@/lib/db/office-events";
import { withTenant } from "@/lib/db/tenant";
import { PersonId } from "@/lib/ids";
import { changes } from "@/lib/registry/changes";
import { tick } from "@/lib/registry/fields";
import { readForm, take } from "@/lib/registry/form";
import { certificateForm, invitationForm, memberForm } from "@/lib/registry/member";
import { err, ok, type Result } from "@/lib/result";

const sevenDaysS = 7 * 24 * 3600;

/** Invites somebody; the token is answered once and kept only as its hash. */
export async function invitePerson(
  _previous: unknown,
  form: FormData,
): Promise<Result<{ path: string; email: string }, RegisterFailure>> {
  const { slug, companyId, personId, roles } = await requireMember(form.get("company"), "supervisor", "owner");
  const fields = readForm(form, invitationForm, ["roles"]);
  if (!fields.ok) return fields;
  if (fields.value.roles.includes("owner") && !roles.includes("owner")) return err({ code: "owner-role-is-an-owners" });
  const token = randomBytes(32).toString("base64url");
  const outcome = await withTenant(companyId, async (tx): Promise<Result<null, RegisterFailure>> => {
    if (await isMemberAddress(tx, fields.value.email)) return err({ code: "already-a-member" });
    const id = uuidv7();
    const tokenHash = createHash("sha256").update(token).digest();
    await invite(tx, { id, tokenHash, ...fields.value, by: personId, ttlS: sevenDaysS });
    const detail = { email: fields.value.email, roles: fields.value.roles };
    await recordOfficeEvent(tx, personId, { what: "invited", subject: "invitation", subjectId: id, detail });
    return ok(null);
  });
  if (!outcome.ok) return outcome;
  revalidatePath(`/${slug}/people`);
  return ok({ path: `/invitation/${token}`, email: fields.value.email });
}

export async function withdraw(form: FormData): Promise<void> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), "supervisor", "owner");
  const id = z.uuid().safeParse(form.get("invitationId"));
  if (!id.success) notFound();
  await withTenant(companyId, async (tx) => {
    await withdrawInvitation(tx, id.data);
    await recordOfficeEvent(tx, personId, { what: "withdrawn", subject: "invitation", subjectId: id.data });
  });
  revalidatePath(`/${slug}/people`);
}

export async function changeMember(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const actor = await requireMember(form.get("company"), "supervisor", "owner");
  const id = PersonId.safeParse(take(form, "personId"));
  if (!id.success) notFound();
  const fields = readForm(form, memberForm.extend({ active: tick }), ["roles"]);
  if (!fields.ok) return fields;
  const outcome = await withTenant(actor.companyId, async (tx): Promise<Result<null, MemberRefusal>> => {
    const before = await findMemberOf(tx, id.data);
    const changed = await updateMember(tx, id.data, fields.value, actor.roles);
    if (!changed.ok || !before) return changed;
    const detail = changes(before, fields.value);
    await recordOfficeEvent(tx, actor.personId, { what: "changed", subject: "member", subjectId: id.data, detail });
    return changed;
  });
  if (outcome.ok) {
    revalidatePath(`/${actor.slug}`, "layout");
    return outcome;
  }
  switch (outcome.error.code) {
    case "last-owner":
    case "owner-role-is-an-owners":
      return err({ code: outcome.error.code });
    case "not-found":
      return notFound();
  }
}

export async function addCertificateOf(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), "supervisor", "owner", "dispatcher");
  const holder = PersonId.safeParse(take(form, "personId"));
  if (!holder.success) notFound();
  const fields = readForm(form, certificateForm);
  if (!fields.ok) return fields;
  const id = await withTenant(companyId, async (tx) => {
    const added = await addCertificate(tx, holder.data, fields.value);
    const detail = { holder: holder.data, kind: fields.value.kind, number: fields.value.number };
    if (added)
      await recordOfficeEvent(tx, personId, { what: "added", subject: "certificate", subjectId: added, detail });
    return added;
  });
  if (!id) notFound();
  revalidatePath(`/${slug}/people`, "layout");
  return ok(null);
}

export async function strikeCertificate(form: FormData): Promise<void> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), "supervisor", "owner", "dispatcher");
  const holder = PersonId.safeParse(form.get("personId"));
  const id = z.uuid().safeParse(form.get("certificateId"));
  if (!holder.success || !id.success) notFound();
  await withTenant(companyId, async (tx) => {
    const struck = await removeCertificate(tx, holder.data, id.data);
    if (!struck) return;
    const detail = { holder: holder.data, ...struck };
    await recordOfficeEvent(tx, personId, { what: "struck-off", subject: "certificate", subjectId: id.data, detail });
  });
  revalidatePath(`/${slug}/people`, "layout");
}
