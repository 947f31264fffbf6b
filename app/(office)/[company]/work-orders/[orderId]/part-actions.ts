"use server";

import { revalidatePath } from "next/cache";
import { notFound, redirect } from "next/navigation";
import * as z from "zod";
import type { RegisterFailure } from "@/components/registry/failure";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { callForPart } from "@/lib/db/calls";
import { recordOfficeEvent } from "@/lib/db/office-events";
import { withTenant } from "@/lib/db/tenant";
import { requiredLine } from "@/lib/registry/fields";
import { readForm } from "@/lib/registry/form";
import type { Result } from "@/lib/result";

const partForm = z.strictObject({
  orderId: z.uuid().lowercase(),
  part: requiredLine(200, "Say which part is awaited."),
});

/** Makes the call of a return visit that waits for a part. */
export async function awaitPart(_previous: unknown, form: FormData): Promise<Result<null, RegisterFailure>> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const read = readForm(form, partForm);
  if (!read.ok) return read;
  const { orderId, part } = read.value;
  const callId = await withTenant(companyId, async (tx) => {
    const id = await callForPart(tx, orderId, part, personId);
    if (id) {
      const event = { what: "took", subject: "service-call", subjectId: id, detail: { returnOf: orderId } } as const;
      await recordOfficeEvent(tx, personId, event);
    }
    return id;
  });
  if (callId === null) notFound();
  revalidatePath(`/${slug}`, "layout");
  redirect(`/${slug}/calls/${callId}`);
}
