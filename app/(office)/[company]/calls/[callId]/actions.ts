"use server";

import { revalidatePath } from "next/cache";
import { notFound, redirect } from "next/navigation";
import { requireMember } from "@/lib/auth/session";
import { cancelCall, noteArrivedPart } from "@/lib/db/calls";
import { recordOfficeEvent } from "@/lib/db/office-events";
import { withTenant } from "@/lib/db/tenant";
import { openWorkOrder } from "@/lib/db/work-orders";
import { isUuid } from "@/lib/ids";

/** Opens the work order of a new call; a call that has one already leads back to itself. */
export async function orderWork(form: FormData): Promise<void> {
  const member = await requireMember(form.get("company"), "dispatcher", "supervisor", "owner");
  const callId = form.get("callId");
  if (!isUuid(callId)) notFound();
  const orderId = await withTenant(member.companyId, async (tx) => {
    const id = await openWorkOrder(tx, callId);
    if (id) await recordOfficeEvent(tx, member.personId, { what: "opened", subject: "work-order", subjectId: id });
    return id;
  });
  redirect(orderId ? `/${member.slug}/work-orders/${orderId}` : `/${member.slug}/calls/${callId}`);
}

export async function cancelThisCall(form: FormData): Promise<void> {
  const member = await requireMember(form.get("company"), "dispatcher", "supervisor", "owner");
  const callId = form.get("callId");
  if (!isUuid(callId)) notFound();
  await withTenant(member.companyId, async (tx) => {
    if (await cancelCall(tx, callId)) {
      await recordOfficeEvent(tx, member.personId, { what: "cancelled", subject: "service-call", subjectId: callId });
    }
  });
  revalidatePath(`/${member.slug}/calls/${callId}`);
}

/** The part a return visit waited for has come: it can be planned. */
export async function partHasCome(form: FormData): Promise<void> {
  const member = await requireMember(form.get("company"), "dispatcher", "supervisor", "owner");
  const callId = form.get("callId");
  if (!isUuid(callId)) notFound();
  await withTenant(member.companyId, async (tx) => {
    if (await noteArrivedPart(tx, callId))
      await recordOfficeEvent(tx, member.personId, { what: "part-came", subject: "service-call", subjectId: callId });
  });
  revalidatePath(`/${member.slug}`, "layout");
}
