"use server";

import { revalidatePath } from "next/cache";
import { notFound } from "next/navigation";
import type { RegisterFailure } from "@/components/registry/failure";
import { type Member, requireMember } from "@/lib/auth/session";
import {
  addOwnCause,
  type CallbackDecision,
  type DecisionRefusal,
  decideCallback,
  saveCallbackRule,
  setCauseRetired,
} from "@/lib/db/callbacks";
import { recordOfficeEvent } from "@/lib/db/office-events";
import { withTenant } from "@/lib/db/tenant";
import { isUuid } from "@/lib/ids";
import { callbackRuleForm, causeForm, confirmForm, notRelatedForm } from "@/lib/registry/callback";
import { type InvalidFields, invalidFields, readForm } from "@/lib/registry/form";
import { ok, type Result } from "@/lib/result";

/** Confirms a return as a callback of an earlier job, with its cause and what it cost. */
export async function confirmCallback(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const member = await requireMember(form.get("company"), "supervisor", "owner");
  const read = readForm(form, confirmForm);
  if (!read.ok) return read;
  const { orderId, version, originJobId, cause, note, workHours, travel, refrigerant, parts, goodwill } = read.value;
  return decide(member, orderId, version, {
    state: "confirmed",
    originJobId,
    cause,
    note,
    costs: {
      workHours,
      travelCents: travel,
      refrigerantCents: refrigerant,
      partsCents: parts,
      goodwillCents: goodwill,
    },
  });
}

export async function dismissCallback(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const member = await requireMember(form.get("company"), "supervisor", "owner");
  const read = readForm(form, notRelatedForm);
  if (!read.ok) return read;
  const { orderId, version, note } = read.value;
  return decide(member, orderId, version, { state: "not-related", note });
}

async function decide(
  { companyId, personId, slug }: Member,
  workOrderId: string,
  version: number,
  decision: CallbackDecision,
): Promise<Result<null, InvalidFields>> {
  const asked = { workOrderId, version };
  const decided = await withTenant(companyId, (tx) => decideCallback(tx, asked, decision, personId));
  if (!decided.ok) return refused(decided.error);
  revalidatePath(`/${slug}`, "layout");
  return ok(null);
}

function refused({ code }: DecisionRefusal): Result<never, InvalidFields> {
  switch (code) {
    case "not-found":
      return notFound();
    case "changed-meanwhile":
      return invalidFields({
        "": "Somebody decided this meanwhile. Load the page to see what; nothing was overwritten.",
      });
    case "no-such-cause":
      return invalidFields({ cause: "This cause is not on the list any more. Choose again." });
    case "no-such-origin":
      return invalidFields({ originJobId: "This job is not one it can come from. Choose again." });
  }
}

export async function addCause(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { companyId, personId, slug } = await requireMember(form.get("company"), "supervisor", "owner");
  const read = readForm(form, causeForm);
  if (!read.ok) return read;
  const id = await withTenant(companyId, async (tx) => {
    const added = await addOwnCause(tx, read.value.words);
    if (added) await recordOfficeEvent(tx, personId, { what: "created", subject: "callback-cause", subjectId: added });
    return added;
  });
  if (!id) return invalidFields({ words: "This cause is on the list already." });
  revalidatePath(`/${slug}/callbacks/causes`);
  return ok(null);
}

export async function retireCause(form: FormData): Promise<void> {
  const { companyId, personId, slug } = await requireMember(form.get("company"), "supervisor", "owner");
  const id = form.get("causeId");
  if (!isUuid(id)) notFound();
  const retired = form.get("back") !== "yes";
  await withTenant(companyId, async (tx) => {
    if (!(await setCauseRetired(tx, id, retired))) notFound();
    await recordOfficeEvent(tx, personId, {
      what: retired ? "archived" : "restored",
      subject: "callback-cause",
      subjectId: id,
    });
  });
  revalidatePath(`/${slug}/callbacks/causes`);
}

export async function changeCallbackRule(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { companyId, personId, slug } = await requireMember(form.get("company"), "supervisor", "owner");
  const read = readForm(form, callbackRuleForm);
  if (!read.ok) return read;
  const rule = { hourCostCents: read.value.hourCost, currency: read.value.currency };
  await withTenant(companyId, async (tx) => {
    await saveCallbackRule(tx, rule);
    await recordOfficeEvent(tx, personId, {
      what: "changed",
      subject: "company",
      subjectId: companyId,
      detail: { ...rule },
    });
  });
  revalidatePath(`/${slug}`, "layout");
  return ok(null);
}
