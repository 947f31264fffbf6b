"use server";

import { revalidatePath } from "next/cache";
import { linkHashOf } from "@/lib/auth/link-token";
import { requireMember } from "@/lib/auth/session";
import { makeCalendarFeed, revokeCalendarFeed } from "@/lib/db/calendar-feeds";
import { withTenant } from "@/lib/db/tenant";

/** Makes the address at which a calendar program reads one's own visits in a company. */
export async function makeCalendar(form: FormData): Promise<void> {
  const { companyId, personId } = await requireMember(form.get("company"), "technician");
  await withTenant(companyId, (tx) => makeCalendarFeed(tx, personId, linkHashOf("calendar")));
  revalidatePath("/account");
}

/** Takes it back for good: calendar programs that know it get nothing any more. */
export async function takeBackCalendar(form: FormData): Promise<void> {
  const { companyId, personId } = await requireMember(form.get("company"));
  await withTenant(companyId, (tx) => revokeCalendarFeed(tx, personId));
  revalidatePath("/account");
}
