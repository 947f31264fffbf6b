"use server";

import { revalidatePath } from "next/cache";
import { notFound } from "next/navigation";
import * as z from "zod";
import type { RegisterFailure } from "@/components/registry/failure";
import { requireMember } from "@/lib/auth/session";
import { recordOfficeEvent } from "@/lib/db/office-events";
import { callForDuty, setLeakRateMethod } from "@/lib/db/refrigerant/duties";
import { withTenant } from "@/lib/db/tenant";
import { LEAK_RATE_METHODS } from "@/lib/duties";
import { CircuitId } from "@/lib/ids";
import { readForm } from "@/lib/registry/form";
import { bookDay } from "@/lib/registry/refrigerant";
import { ok, type Result } from "@/lib/result";

export async function changeMethod(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
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

const dutyForm = z.strictObject({ circuitId: CircuitId, code: z.string().max(40), since: bookDay });

/** Puts a duty at the board's edge as a call with its last day. */
export async function callFor(form: FormData): Promise<void> {
  const { companyId, personId, slug } = await requireMember(form.get("company"), "supervisor", "owner");
  const read = readForm(form, dutyForm);
  if (!read.ok) notFound();
  const made = await withTenant(companyId, (tx) => callForDuty(tx, read.value, personId));
  if (!made.ok && made.error.code === "not-found") notFound();
  revalidatePath(`/${slug}`, "layout");
}
