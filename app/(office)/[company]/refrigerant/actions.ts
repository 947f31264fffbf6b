"use server";

import { revalidatePath } from "next/cache";
import { notFound } from "next/navigation";
import * as z from "zod";
import type { RegisterFailure } from "@/components/registry/failure";
import { requireMember } from "@/lib/auth/session";
import { recordOfficeEvent } from "@/lib/db/office-events";
import { callForDuty, setLeakRateMethod } from "@/lib/db/refrigerant/duties";
import { recordLawEvent } from "@/lib/db/refrigerant/law-events";
import { bookMovement, handOver, MOVEMENT_KINDS } from "@/lib/db/refrigerant/movements";
import { reserve } from "@/lib/db/refrigerant/reservations";
import { withTenant } from "@/lib/db/tenant";
import { DUTY_WORDS, LAW_EVENTS, LEAK_RATE_METHODS } from "@/lib/duties";
import { toKg } from "@/lib/hvac";
import { CircuitId, CustomerId, CylinderId, PersonId } from "@/lib/ids";
import { toGrams } from "@/lib/ledger";
import { refrigerantName } from "@/lib/registry/circuit";
import { line, optionalId, paragraph, requiredNumber } from "@/lib/registry/fields";
import { invalidFields, readForm } from "@/lib/registry/form";
import { ok, type Result } from "@/lib/result";
import { testedEvents } from "@/lib/work/refrigerant-words";
import { dayAt } from "@/lib/work/site-time";

type Outcome = Promise<Result<null, RegisterFailure>>;

const day = z.iso.date("Not a date (year-month-day).").refine((date) => date >= "2000-01-01" && date < "2200-01-01", {
  error: "The year cannot be right.",
});
const mass = requiredNumber({ over: 0, max: 100_000 }, "Give the mass.");
const massUnit = z.enum(["kg", "lb"]);

export async function changeMethod(_previous: unknown, form: FormData): Outcome {
  const { companyId, personId, slug } = await requireMember(form.get("company"), "supervisor", "owner");
  const read = readForm(form, z.strictObject({ method: z.enum(LEAK_RATE_METHODS) }));
  if (!read.ok) return read;
  await withTenant(companyId, async (tx) => {
    await setLeakRateMethod(tx, read.value.method);
    const detail = { leakRateMethod: read.value.method };
    await recordOfficeEvent(tx, personId, { what: "changed", subject: "company", subjectId: companyId, detail });
  });
  revalidatePath(`/${slug}/refrigerant`, "layout");
  return ok(null);
}

const dutyForm = z.strictObject({ circuitId: CircuitId, code: z.string().max(40), since: day });

/** Puts a duty on the board as a call with its order. */
export async function callFor(form: FormData): Promise<void> {
  const { companyId, personId, slug } = await requireMember(form.get("company"), "supervisor", "owner");
  const read = readForm(form, dutyForm);
  if (!read.ok) notFound();
  const made = await withTenant(companyId, (tx) =>
    callForDuty(
      tx,
      read.value,
      ({ code, words, due_by, source }) =>
        `${DUTY_WORDS[code] ?? code}${due_by ? `, by ${due_by}` : ""}. ${words} (${source})`.slice(0, 2000),
      personId,
    ),
  );
  if (!made.ok && made.error.code === "not-found") notFound();
  revalidatePath(`/${slug}`, "layout");
}

const eventForm = z.strictObject({
  circuitId: CircuitId,
  kind: z.enum([...LAW_EVENTS, "records-given"]),
  on: day,
  result: z.enum(["", "passed", "failed"]).default(""),
  doneBy: line(200),
  certificate: line(120),
  method: line(200).default(""),
  note: paragraph(2000),
});

/** Records a repair, a test or a check; what it settles or asks for is computed at once. */
export async function recordEvent(_previous: unknown, form: FormData): Outcome {
  const { companyId, personId, slug, timeZone } = await requireMember(form.get("company"), "supervisor", "owner");
  const read = readForm(form, eventForm);
  if (!read.ok) return read;
  const { result, ...event } = read.value;
  const tested = testedEvents.includes(event.kind);
  if (tested && result === "") return invalidFields({ result: "Say whether it was found tight." });
  if (tested && event.doneBy === "") return invalidFields({ doneBy: "Say who did it." });
  if (event.on > dayAt(new Date(Date.now() + 86_400_000), timeZone))
    return invalidFields({ on: "This day is still to come." });
  const passed = tested ? result === "passed" : null;
  const recorded = await withTenant(companyId, (tx) => recordLawEvent(tx, { ...event, passed }, personId));
  if (!recorded.ok) notFound();
  revalidatePath(`/${slug}/refrigerant`, "layout");
  return ok(null);
}

const movementForm = z.strictObject({
  kind: z.enum(MOVEMENT_KINDS),
  cylinderId: CylinderId,
  toCylinderId: optionalId(CylinderId).default(null),
  refrigerant: refrigerantName,
  mass,
  massUnit,
  party: line(200).default(""),
  number: line(100).default(""),
  note: paragraph(2000),
  on: day,
});

/** Books a purchase, a shipment or a decanting that has happened, also where it passed a limit: the page shows the alarm. */
export async function book(_previous: unknown, form: FormData): Outcome {
  const { companyId, personId, slug } = await requireMember(form.get("company"), "supervisor", "owner");
  const read = readForm(form, movementForm);
  if (!read.ok) return read;
  const { mass: typed, massUnit: unit, ...movement } = read.value;
  if (movement.refrigerant === "") return invalidFields({ refrigerant: "Say which refrigerant." });
  const grams = toGrams(toKg(typed, unit));
  if (grams === 0) return invalidFields({ mass: "Less than a gram." });
  const booked = await withTenant(companyId, (tx) => bookMovement(tx, { ...movement, grams }, personId));
  if (!booked.ok && booked.error.code === "same-cylinder")
    return invalidFields({ toCylinderId: "Choose the other cylinder." });
  if (!booked.ok) notFound();
  revalidatePath(`/${slug}`, "layout");
  return ok(null);
}

const wishForm = z.strictObject({
  cylinderId: CylinderId,
  direction: z.enum(["in", "out"]),
  refrigerant: refrigerantName,
  mass,
  massUnit,
  customerId: optionalId(CustomerId),
  purpose: line(200),
  untilDay: day,
});

/** Promises room or stock, or says everything that stands against it. */
export async function promise(_previous: unknown, form: FormData): Outcome {
  const { companyId, personId, slug, timeZone } = await requireMember(form.get("company"), "supervisor", "owner");
  const read = readForm(form, wishForm);
  if (!read.ok) return read;
  const { mass: typed, massUnit: unit, ...wish } = read.value;
  if (wish.refrigerant === "") return invalidFields({ refrigerant: "Say which refrigerant." });
  const grams = toGrams(toKg(typed, unit));
  if (grams === 0) return invalidFields({ mass: "Less than a gram." });
  const today = dayAt(new Date(), timeZone);
  if (wish.untilDay < today) return invalidFields({ untilDay: "This day is past." });
  const reserved = await withTenant(companyId, async (tx) => {
    const { customerId } = wish;
    if (customerId !== null && (await tx.customer.count({ where: { id: customerId } })) === 0) notFound();
    return reserve(tx, { ...wish, grams }, personId, today);
  });
  if (!reserved.ok && reserved.error.code === "refused")
    return invalidFields({ "": reserved.error.objections.map(({ text }) => text).join(" ") });
  if (!reserved.ok) notFound();
  revalidatePath(`/${slug}/refrigerant`, "layout");
  return ok(null);
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
