"use server";

import { revalidatePath } from "next/cache";
import { notFound } from "next/navigation";
import * as z from "zod";
import type { RegisterFailure } from "@/components/registry/failure";
import { requireMember } from "@/lib/auth/session";
import { FULL_CHARGE_METHODS, setCircuitFacts } from "@/lib/db/refrigerant/circuit-facts";
import { recordLawEvent, withdrawLawEvent } from "@/lib/db/refrigerant/law-events";
import { recordDisposal } from "@/lib/db/refrigerant/movements";
import { withTenant } from "@/lib/db/tenant";
import { LAW_EVENTS } from "@/lib/duties";
import { toKg } from "@/lib/hvac";
import { CircuitId } from "@/lib/ids";
import { toGrams } from "@/lib/ledger";
import { line, optionalDate, optionalNumber, paragraph, requiredLine, tick } from "@/lib/registry/fields";
import { invalidFields, readForm } from "@/lib/registry/form";
import { bookDay, massUnit } from "@/lib/registry/refrigerant";
import { ok, type Result } from "@/lib/result";
import { testedEvents } from "@/lib/work/refrigerant-words";
import { dayAt } from "@/lib/work/site-time";

type Outcome = Promise<Result<null, RegisterFailure>>;

const eventForm = z.strictObject({
  circuitId: CircuitId,
  kind: z.enum([...LAW_EVENTS, "records-given"]),
  on: bookDay,
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

const withdrawForm = z.strictObject({ eventId: z.uuid(), why: requiredLine(500, "Say why it is taken back.") });

/** Takes a record of the office back: it stays readable, counts no more, and says why. */
export async function withdrawEvent(_previous: unknown, form: FormData): Outcome {
  const { companyId, personId, slug } = await requireMember(form.get("company"), "supervisor", "owner");
  const read = readForm(form, withdrawForm);
  if (!read.ok) return read;
  const { eventId, why } = read.value;
  const withdrawn = await withTenant(companyId, (tx) => withdrawLawEvent(tx, eventId, why, personId));
  if (!withdrawn.ok && withdrawn.error.code === "of-a-log")
    return invalidFields({ "": "A job's log says this. Correct it there, and it changes here by itself." });
  if (!withdrawn.ok) notFound();
  revalidatePath(`/${slug}/refrigerant`, "layout");
  return ok(null);
}

const factsForm = z.strictObject({
  circuitId: CircuitId,
  fullCharge: optionalNumber({ over: 0, max: 100_000 }),
  massUnit,
  fullChargeMethod: z.enum(FULL_CHARGE_METHODS),
  installedOn: optionalDate,
  lightCommercial: z.enum(["", "yes", "no"]).default(""),
  processShutdown: tick,
  detectionSystem: tick,
  hermeticLabelled: tick,
});

/** Writes what the rules ask about the circuit; rates and duties follow. */
export async function changeFacts(_previous: unknown, form: FormData): Outcome {
  const { companyId, personId, slug, timeZone } = await requireMember(form.get("company"), "supervisor", "owner");
  const read = readForm(form, factsForm);
  if (!read.ok) return read;
  const { circuitId, fullCharge, massUnit: unit, lightCommercial, ...plain } = read.value;
  if (plain.installedOn !== null && plain.installedOn > dayAt(new Date(Date.now() + 86_400_000), timeZone))
    return invalidFields({ installedOn: "This day is still to come." });
  const fullChargeGrams = fullCharge === null ? null : toGrams(toKg(fullCharge, unit));
  if (fullChargeGrams === 0) return invalidFields({ fullCharge: "Less than a gram." });
  const facts = {
    ...plain,
    fullChargeGrams,
    lightCommercial: lightCommercial === "" ? null : lightCommercial === "yes",
  };
  const set = await withTenant(companyId, (tx) => setCircuitFacts(tx, circuitId, facts, personId));
  if (!set.ok) notFound();
  revalidatePath(`/${slug}/refrigerant`, "layout");
  return ok(null);
}

const disposalForm = z.strictObject({
  circuitId: CircuitId,
  on: bookDay,
  party: requiredLine(200, "Say who takes it."),
  number: line(100),
  note: paragraph(2000),
});

/** Writes down that the appliance was given up, and to whom it went. */
export async function giveUp(_previous: unknown, form: FormData): Outcome {
  const { companyId, personId, slug, timeZone } = await requireMember(form.get("company"), "supervisor", "owner");
  const read = readForm(form, disposalForm);
  if (!read.ok) return read;
  if (read.value.on > dayAt(new Date(Date.now() + 86_400_000), timeZone))
    return invalidFields({ on: "This day is still to come." });
  const given = await withTenant(companyId, (tx) => recordDisposal(tx, read.value, personId));
  if (!given.ok) notFound();
  revalidatePath(`/${slug}/refrigerant`, "layout");
  return ok(null);
}
