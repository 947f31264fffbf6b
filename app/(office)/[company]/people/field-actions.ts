"use server";

import { revalidatePath } from "next/cache";
import { notFound } from "next/navigation";
import * as z from "zod";
import type { RegisterFailure } from "@/components/registry/failure";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { addPersonTime, setFieldProfile, setWeek, withdrawPersonTime } from "@/lib/db/dispatch/field-people";
import { recordOfficeEvent } from "@/lib/db/office-events";
import { type TenantTx, withTenant } from "@/lib/db/tenant";
import { PersonId } from "@/lib/ids";
import { clockWords, fieldProfileForm, personTimeForm, WEEKDAYS, weekForm } from "@/lib/registry/field-time";
import { invalidFields, readForm, take } from "@/lib/registry/form";
import { ok, type Result } from "@/lib/result";
import { addDays, instantAt } from "@/lib/work/site-time";

type Outcome = Result<null, RegisterFailure>;

/** Who acts, on whom; the change and its event in one transaction. */
async function changeOf(
  form: FormData,
  change: (
    tx: TenantTx,
    personId: PersonId,
  ) => Promise<Result<{ what: string; detail: object } | null, RegisterFailure>>,
): Promise<Outcome> {
  const actor = await requireMember(form.get("company"), ...office);
  const id = PersonId.safeParse(take(form, "personId"));
  if (!id.success) notFound();
  const outcome = await withTenant(actor.companyId, async (tx): Promise<Result<boolean, RegisterFailure>> => {
    const changed = await change(tx, id.data);
    if (!changed.ok) return changed;
    if (changed.value === null) return ok(false);
    const detail = JSON.parse(JSON.stringify(changed.value.detail));
    await recordOfficeEvent(tx, actor.personId, {
      what: changed.value.what,
      subject: "member",
      subjectId: id.data,
      detail,
    });
    return ok(true);
  });
  if (!outcome.ok) return outcome;
  if (!outcome.value) notFound();
  revalidatePath(`/${actor.slug}/people`, "layout");
  return ok(null);
}

export async function changeWeek(_previous: unknown, form: FormData): Promise<Outcome> {
  return changeOf(form, async (tx, personId) => {
    const week = readForm(form, weekForm);
    if (!week.ok) return week;
    const detail = Object.fromEntries(
      week.value.map(({ weekday, beginsMinute, endsMinute }) => [
        WEEKDAYS[weekday - 1]!,
        beginsMinute === null || endsMinute === null ? "off" : `${clockWords(beginsMinute)}-${clockWords(endsMinute)}`,
      ]),
    );
    return ok((await setWeek(tx, personId, week.value)) ? { what: "hours-changed", detail } : null);
  });
}

export async function addTime(_previous: unknown, form: FormData): Promise<Outcome> {
  const { timeZone } = await requireMember(form.get("company"), ...office);
  return changeOf(form, async (tx, personId) => {
    const fields = readForm(form, personTimeForm);
    if (!fields.ok) return fields;
    const { kind, fromDay, fromClock, toDay, toClock, note } = fields.value;
    const padded = (clock: string) => clock.trim().padStart(5, "0");
    const fromAt = instantAt(`${fromDay}T${fromClock.trim() === "" ? "00:00" : padded(fromClock)}`, timeZone);
    const wholeDay = toClock.trim() === "" || padded(toClock) === "24:00";
    const toAt = instantAt(wholeDay ? `${addDays(toDay, 1)}T00:00` : `${toDay}T${padded(toClock)}`, timeZone);
    if (!fromAt || !toAt || fromAt >= toAt) return invalidFields({ toDay: "It must end after it begins." });
    const added = await addPersonTime(tx, personId, { kind, fromAt, toAt, note });
    return ok(
      added === null
        ? null
        : { what: kind === "away" ? "absence-added" : "on-call-added", detail: { fromAt, toAt, note } },
    );
  });
}

export async function withdrawTime(form: FormData): Promise<void> {
  const id = z.uuid().safeParse(take(form, "timeId"));
  if (!id.success) notFound();
  await changeOf(form, async (tx, personId) =>
    ok(
      (await withdrawPersonTime(tx, personId, id.data, new Date()))
        ? { what: "time-withdrawn", detail: { id: id.data } }
        : null,
    ),
  );
}

export async function changeFieldProfile(_previous: unknown, form: FormData): Promise<Outcome> {
  return changeOf(form, async (tx, personId) => {
    const fields = readForm(form, fieldProfileForm);
    if (!fields.ok) return fields;
    const changed = await setFieldProfile(tx, personId, fields.value);
    if (changed.ok) return ok({ what: "base-changed", detail: fields.value });
    return changed.error.code === "not-found"
      ? ok(null)
      : invalidFields({ ridesWith: "Choose somebody else who works here." });
  });
}
