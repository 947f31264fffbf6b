"use server";

import { revalidatePath } from "next/cache";
import { v7 as uuidv7 } from "uuid";
import * as z from "zod";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { carryOutImport, lockImports, readRegister } from "@/lib/db/import-register";
import { recordOfficeEvent } from "@/lib/db/office-events";
import { BULK_TIMEOUT_MS, withTenant } from "@/lib/db/tenant";
import { importFields } from "@/lib/registry/import/columns";
import { type ImportPreview, previewImport } from "@/lib/registry/import/preview";
import type { TableError } from "@/lib/registry/import/read-table";
import { err, ok, type Result } from "@/lib/result";

const request = z.strictObject({
  company: z.string(),
  text: z.string(),
  mapping: z.array(z.enum(importFields).nullable()).max(60).nullable(),
});
type ImportRequest = z.input<typeof request>;
export type ImportFailure =
  | TableError
  | { readonly code: "malformed-request" }
  | { readonly code: "has-errors"; readonly preview: ImportPreview };

/** What this file would do, with every fault by line and column; writes nothing. */
export async function preview(asked: ImportRequest): Promise<Result<ImportPreview, ImportFailure>> {
  const read = request.safeParse(asked);
  if (!read.success) return err({ code: "malformed-request" });
  const { company, text, mapping } = read.data;
  const { companyId, timeZone } = await requireMember(company, ...office);
  const register = await withTenant(companyId, readRegister);
  const outcome = previewImport(text, mapping, timeZone, register);
  return outcome.ok ? ok(outcome.value.preview) : outcome;
}

/** Imports the file, all of it or nothing: it is read and compared anew within the transaction that writes. */
export async function carryOut(asked: ImportRequest): Promise<Result<ImportPreview["counts"], ImportFailure>> {
  const read = request.safeParse(asked);
  if (!read.success) return err({ code: "malformed-request" });
  const { company, text, mapping } = read.data;
  const { slug, companyId, personId, timeZone } = await requireMember(company, ...office);
  const outcome = await withTenant(
    companyId,
    async (tx): Promise<Result<ImportPreview["counts"], ImportFailure>> => {
      await lockImports(tx);
      const planned = previewImport(text, mapping, timeZone, await readRegister(tx));
      if (!planned.ok) return planned;
      const { plan, preview: seen } = planned.value;
      if (!plan) return err({ code: "has-errors", preview: seen });
      await carryOutImport(tx, plan);
      const detail = { lines: plan.rows.length, ...plan.counts };
      await recordOfficeEvent(tx, personId, { what: "imported", subject: "import", subjectId: uuidv7(), detail });
      return ok(plan.counts);
    },
    BULK_TIMEOUT_MS,
  );
  if (outcome.ok) revalidatePath(`/${slug}`, "layout");
  return outcome;
}
