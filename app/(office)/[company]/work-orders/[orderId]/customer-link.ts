"use server";

import { revalidatePath } from "next/cache";
import { notFound } from "next/navigation";
import { linkHashOf } from "@/lib/auth/link-token";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { recordOfficeEvent } from "@/lib/db/office-events";
import { ensureStatusLink, revokeStatusLink, statusLinkOf } from "@/lib/db/status-links";
import { withTenant } from "@/lib/db/tenant";
import { isUuid } from "@/lib/ids";

/** Makes the address at which the customer can look the order up, where there is none. */
export async function makeCustomerLink(form: FormData): Promise<void> {
  const member = await requireMember(form.get("company"), ...office);
  const orderId = form.get("orderId");
  if (!isUuid(orderId)) notFound();
  const isThere = await withTenant(member.companyId, async (tx) => {
    if ((await tx.workOrder.count({ where: { id: orderId } })) === 0) return false;
    if ((await statusLinkOf(tx, orderId)) !== null) return true;
    await ensureStatusLink(tx, orderId, linkHashOf("visit"));
    const event = { what: "status-link-made", subject: "work-order", subjectId: orderId } as const;
    await recordOfficeEvent(tx, member.personId, event);
    return true;
  });
  if (!isThere) notFound();
  revalidatePath(`/${member.slug}/work-orders/${orderId}`);
}

/** Takes the customer's address back for good; the next message, or the next wish for one, makes another. */
export async function takeBackCustomerLink(form: FormData): Promise<void> {
  const member = await requireMember(form.get("company"), ...office);
  const orderId = form.get("orderId");
  if (!isUuid(orderId)) notFound();
  await withTenant(member.companyId, (tx) => revokeStatusLink(tx, orderId, member.personId));
  revalidatePath(`/${member.slug}/work-orders/${orderId}`);
}
