"use server";

import { revalidatePath } from "next/cache";
import { notFound } from "next/navigation";
import * as z from "zod";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { makeInstrumentToken, revokeInstrumentToken } from "@/lib/db/instrument-batches";
import { withTenant } from "@/lib/db/tenant";
import { findTool } from "@/lib/db/tools";
import { ToolId } from "@/lib/ids";
import { unitsOfGauge } from "@/lib/instruments/batch";

/** Makes a secret for a gauge and gives it out, once. */
export async function makeToken(_previous: unknown, form: FormData): Promise<string | null> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const id = ToolId.safeParse(form.get("toolId"));
  if (!id.success) notFound();
  const token = await withTenant(companyId, async (tx) => {
    const tool = await findTool(tx, id.data);
    return tool && unitsOfGauge[tool.kind] ? makeInstrumentToken(tx, id.data, personId) : null;
  });
  if (token === null) notFound();
  revalidatePath(`/${slug}/tools/${id.data}`);
  return token;
}

/** Takes a secret back: from now on nothing is received by it. */
export async function revokeToken(form: FormData): Promise<void> {
  const { slug, companyId, personId } = await requireMember(form.get("company"), ...office);
  const id = ToolId.safeParse(form.get("toolId"));
  const token = z.uuid().safeParse(form.get("tokenId"));
  if (!id.success || !token.success) notFound();
  await withTenant(companyId, (tx) => revokeInstrumentToken(tx, id.data, token.data, personId));
  revalidatePath(`/${slug}/tools/${id.data}`);
}
