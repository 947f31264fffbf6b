"use server";

import { revalidatePath } from "next/cache";
import { notFound, redirect } from "next/navigation";
import type { RegisterFailure } from "@/components/registry/failure";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import {
  createCustomer,
  findCustomer,
  findLikeCustomer,
  setCustomerArchived,
  updateCustomer,
} from "@/lib/db/customers";
import { recordOfficeEvent } from "@/lib/db/office-events";
import { createSite, findSite, setSiteArchived, updateSite } from "@/lib/db/sites";
import { withTenant } from "@/lib/db/tenant";
import { CustomerId, SiteId } from "@/lib/ids";
import { changes } from "@/lib/registry/changes";
import { customerForm, siteForm } from "@/lib/registry/customer";
import { readForm, take } from "@/lib/registry/form";
import { err, ok, type Result } from "@/lib/result";

/** Adds a customer; where one of the same name or telephone is on the books, only when asked the same a second time. */
export async function addCustomer(
  previous: Result<unknown, RegisterFailure> | null,
  form: FormData,
): Promise<Result<null, RegisterFailure>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const fields = readForm(form, customerForm);
  if (!fields.ok) return fields;
  const of = `${fields.value.name} ${fields.value.phone}`;
  const isKnown = previous?.ok === false && previous.error.code === "like-another" && previous.error.of === of;
  const id = await withTenant(companyId, async (tx) => {
    const like = isKnown ? null : await findLikeCustomer(tx, fields.value);
    if (like) return like;
    const created = await createCustomer(tx, fields.value);
    await recordOfficeEvent(tx, personId, { what: "created", subject: "customer", subjectId: created });
    return created;
  });
  if (typeof id !== "string") {
    const words = `${id.name} is on the books${id.phone ? ` (${id.phone})` : ""}. Press again to add another all the same.`;
    return err({ code: "like-another", of, words });
  }
  revalidatePath(`/${slug}/customers`);
  redirect(`/${slug}/customers/${id}`);
}

export async function changeCustomer(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const id = CustomerId.safeParse(take(form, "customerId"));
  if (!id.success) notFound();
  const fields = readForm(form, customerForm);
  if (!fields.ok) return fields;
  const isThere = await withTenant(companyId, async (tx) => {
    const before = await findCustomer(tx, id.data);
    if (!before || !(await updateCustomer(tx, id.data, fields.value))) return false;
    const detail = changes(before, fields.value);
    await recordOfficeEvent(tx, personId, { what: "changed", subject: "customer", subjectId: id.data, detail });
    return true;
  });
  if (!isThere) notFound();
  revalidatePath(`/${slug}/customers`, "layout");
  redirect(`/${slug}/customers/${id.data}`);
}

export async function archiveCustomer(form: FormData): Promise<Result<null, { code: "gone" }>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const id = CustomerId.safeParse(form.get("customerId"));
  if (!id.success) return err({ code: "gone" });
  const archived = form.get("archived") === "true";
  const isThere = await withTenant(companyId, async (tx) => {
    if (!(await setCustomerArchived(tx, id.data, archived))) return false;
    const what = archived ? "archived" : "brought-back";
    await recordOfficeEvent(tx, personId, { what, subject: "customer", subjectId: id.data });
    return true;
  });
  revalidatePath(`/${slug}/customers`, "layout");
  return isThere ? ok(null) : err({ code: "gone" });
}

export async function addSite(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const customerId = CustomerId.safeParse(take(form, "customerId"));
  if (!customerId.success) notFound();
  const fields = readForm(form, siteForm);
  if (!fields.ok) return fields;
  const id = await withTenant(companyId, async (tx) => {
    const created = await createSite(tx, customerId.data, fields.value);
    if (created) await recordOfficeEvent(tx, personId, { what: "created", subject: "site", subjectId: created });
    return created;
  });
  if (!id) notFound();
  revalidatePath(`/${slug}/customers`, "layout");
  redirect(`/${slug}/customers/${customerId.data}/sites/${id}`);
}

export async function changeSite(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const id = SiteId.safeParse(take(form, "siteId"));
  if (!id.success) notFound();
  const fields = readForm(form, siteForm);
  if (!fields.ok) return fields;
  const customerId = await withTenant(companyId, async (tx) => {
    const before = await findSite(tx, id.data);
    if (!before || !(await updateSite(tx, id.data, fields.value))) return null;
    const detail = changes(before, fields.value);
    await recordOfficeEvent(tx, personId, { what: "changed", subject: "site", subjectId: id.data, detail });
    return before.customer.id;
  });
  if (!customerId) notFound();
  revalidatePath(`/${slug}/customers`, "layout");
  redirect(`/${slug}/customers/${customerId}/sites/${id.data}`);
}

export async function archiveSite(form: FormData): Promise<Result<null, { code: "gone" }>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const id = SiteId.safeParse(form.get("siteId"));
  if (!id.success) return err({ code: "gone" });
  const archived = form.get("archived") === "true";
  const isThere = await withTenant(companyId, async (tx) => {
    if (!(await setSiteArchived(tx, id.data, archived))) return false;
    const what = archived ? "archived" : "brought-back";
    await recordOfficeEvent(tx, personId, { what, subject: "site", subjectId: id.data });
    return true;
  });
  revalidatePath(`/${slug}/customers`, "layout");
  return isThere ? ok(null) : err({ code: "gone" });
}
