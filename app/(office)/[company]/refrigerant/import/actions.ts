"use server";

import { revalidatePath } from "next/cache";
import { v7 as uuidv7 } from "uuid";
import * as z from "zod";
import { requireMember } from "@/lib/auth/session";
import { recordOfficeEvent } from "@/lib/db/office-events";
import { carryOutPastList, planPastList } from "@/lib/db/refrigerant/import-past";
import { withTenant } from "@/lib/db/tenant";
import { type PastError, readPastList } from "@/lib/registry/import/past-additions";
import type { TableError } from "@/lib/registry/import/read-table";
import { err, ok, type Result } from "@/lib/result";
import { dayAt } from "@/lib/work/site-time";

export interface PastPreview {
  readonly errors: readonly PastError[];
  readonly lines: readonly {
    readonly lineNumber: number;
    readonly found: string;
    readonly fullChargeGrams: number | null;
    readonly addedOn: string | null;
    readonly addedGrams: number | null;
  }[];
  readonly count: number;
  /** Set once it is in. */
  readonly done: { readonly charges: number; readonly additions: number } | null;
}
export type PastFailure = TableError | { readonly code: "malformed-request" | "no-unit-column" };

const request = z.strictObject({ company: z.string(), text: z.string(), carryOut: z.boolean() });
const SHOWN = 200;

/** What an appliance list would do, fault by fault; or, asked to, all of it in one transaction. */
export async function bringPastList(asked: z.input<typeof request>): Promise<Result<PastPreview, PastFailure>> {
  const read = request.safeParse(asked);
  if (!read.success) return err({ code: "malformed-request" });
  const { companyId, personId, slug, timeZone } = await requireMember(read.data.company, "supervisor", "owner");
  const list = readPastList(read.data.text);
  if (!list.ok) return list;
  const outcome = await withTenant(companyId, async (tx) => {
    const { planned, errors: unknown } = await planPastList(tx, list.value.lines);
    const errors = [...list.value.errors, ...unknown].sort((a, b) => a.lineNumber - b.lineNumber);
    const lines = planned.slice(0, SHOWN).map(({ line, found }) => {
      const { lineNumber, fullChargeGrams, addedOn, addedGrams } = line;
      return { lineNumber, found, fullChargeGrams, addedOn, addedGrams };
    });
    const shown = { errors: errors.slice(0, SHOWN), lines, count: planned.length };
    if (!read.data.carryOut || errors.length > 0) return { ...shown, done: null };
    const done = await carryOutPastList(tx, planned, personId, dayAt(new Date(), timeZone));
    await recordOfficeEvent(tx, personId, { what: "imported", subject: "import", subjectId: uuidv7(), detail: done });
    return { ...shown, done };
  });
  if (outcome.done) revalidatePath(`/${slug}/refrigerant`, "layout");
  return ok(outcome);
}
