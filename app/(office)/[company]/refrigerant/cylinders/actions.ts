"use server";

import { revalidatePath } from "next/cache";
import { notFound } from "next/navigation";
import * as z from "zod";
import type { RegisterFailure } from "@/components/registry/failure";
import { requireMember } from "@/lib/auth/session";
import { bookMovement, handOver, MOVEMENT_KINDS } from "@/lib/db/refrigerant/movements";
import { endReservation, reserve } from "@/lib/db/refrigerant/reservations";
import { withTenant } from "@/lib/db/tenant";
import { CustomerId, CylinderId, PersonId } from "@/lib/ids";
import { line, optionalId, paragraph } from "@/lib/registry/fields";
import { invalidFields, readForm } from "@/lib/registry/form";
import { bookDay, massFields, withGrams } from "@/lib/registry/refrigerant";
import { ok, type Result } from "@/lib/result";
import { dayAt } from "@/lib/work/site-time";

type Outcome = Promise<Result<null, RegisterFailure>>;

const movementForm = z.strictObject({
  kind: z.enum(MOVEMENT_KINDS),
  cylinderId: CylinderId,
  toCylinderId: optionalId(CylinderId).default(null),
  ...massFields,
  party: line(200).default(""),
  number: line(100).default(""),
  note: paragraph(2000),
  on: bookDay,
});

/** Books a purchase, a shipment or a decanting that has happened, also where it passed a limit: the page shows the alarm. */
export async function book(_previous: unknown, form: FormData): Outcome {
  const { companyId, personId, slug } = await requireMember(form.get("company"), "supervisor", "owner");
  const read = readForm(form, movementForm);
  if (!read.ok) return read;
  const movement = withGrams(read.value);
  if (!movement.ok) return movement;
  const booked = await withTenant(companyId, (tx) => bookMovement(tx, movement.value, personId));
  if (!booked.ok && booked.error.code === "same-cylinder")
    return invalidFields({ toCylinderId: "Choose the other cylinder." });
  if (!booked.ok) notFound();
  revalidatePath(`/${slug}`, "layout");
  return ok(null);
}

const wishForm = z.strictObject({
  cylinderId: CylinderId,
  direction: z.enum(["in", "out"]),
  ...massFields,
  customerId: optionalId(CustomerId),
  purpose: line(200),
  untilDay: bookDay,
});

/** Promises room or stock, or says everything that stands against it. */
export async function promise(_previous: unknown, form: FormData): Outcome {
  const { companyId, personId, slug, timeZone } = await requireMember(form.get("company"), "supervisor", "owner");
  const read = readForm(form, wishForm);
  if (!read.ok) return read;
  const wish = withGrams(read.value);
  if (!wish.ok) return wish;
  const today = dayAt(new Date(), timeZone);
  if (wish.value.untilDay < today) return invalidFields({ untilDay: "This day is past." });
  const reserved = await withTenant(companyId, async (tx) => {
    const { customerId } = wish.value;
    if (customerId !== null && (await tx.customer.count({ where: { id: customerId } })) === 0) notFound();
    return reserve(tx, wish.value, personId, today);
  });
  if (!reserved.ok && reserved.error.code === "refused")
    return invalidFields({ "": reserved.error.objections.map(({ text }) => text).join(" ") });
  if (!reserved.ok) notFound();
  revalidatePath(`/${slug}/refrigerant`, "layout");
  return ok(null);
}

/** Gives what was promised free again. */
export async function endPromise(form: FormData): Promise<void> {
  const { companyId, personId, slug } = await requireMember(form.get("company"), "supervisor", "owner");
  const id = z.uuid().safeParse(form.get("promiseId"));
  if (!id.success) notFound();
  await withTenant(companyId, (tx) => endReservation(tx, id.data, personId)); // ended already: it is free either way
  revalidatePath(`/${slug}/refrigerant`, "layout");
}

const handOverForm = z.strictObject({ cylinderId: CylinderId, toPerson: optionalId(PersonId) });

/** Gives a cylinder to a van, or back to the shop. */
export async function giveCylinder(_previous: unknown, form: FormData): Outcome {
  const { companyId, personId, slug, timeZone } = await requireMember(form.get("company"), "supervisor", "owner");
  const read = readForm(form, handOverForm);
  if (!read.ok) return read;
  const { cylinderId, toPerson } = read.value;
  const on = dayAt(new Date(), timeZone);
  const given = await withTenant(companyId, (tx) => handOver(tx, cylinderId, toPerson, on, personId));
  if (!given.ok && given.error.code === "no-such-holder")
    return invalidFields({ toPerson: "This person does not work here any more. Choose someone else." });
  if (!given.ok) notFound();
  revalidatePath(`/${slug}`, "layout");
  return ok(null);
}
