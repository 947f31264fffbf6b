"use server";

import { redirect } from "next/navigation";
import * as z from "zod";
import { requireMember } from "@/lib/auth/session";
import { takeCall } from "@/lib/db/calls";
import { openJob } from "@/lib/db/jobs";
import { recordOfficeEvent } from "@/lib/db/office-events";
import { searchRegister } from "@/lib/db/search";
import { withTenant } from "@/lib/db/tenant";
import { planVisit } from "@/lib/db/visits";
import { openWorkOrder } from "@/lib/db/work-orders";
import { offerWindows } from "@/lib/planner/offer-windows";
import { type InvalidFields, invalidFields, readForm } from "@/lib/registry/form";
import { ok, type Result } from "@/lib/result";
import { callForm, jobKindForm, planFrom, visitForm } from "@/lib/work/call-form";
import type { WindowOffer } from "@/lib/work/offer";
import { urgencies } from "@/lib/work/words";

const intakeForm = z.strictObject({
  ...callForm.shape,
  ...visitForm.shape,
  circuitId: z.preprocess((value) => (value === "" ? undefined : value), z.uuid().optional()),
  jobKind: jobKindForm.default("unknown"),
});

/** Takes the call; where a promise, a person or a circuit was given, opens its work order with the visit and the job in one go. */
export async function saveCall(_previous: unknown, form: FormData): Promise<Result<never, InvalidFields>> {
  const member = await requireMember(form.get("company"), "dispatcher", "supervisor", "owner");
  const read = readForm(form, intakeForm, ["people"]);
  if (!read.ok) return read;
  const { windowDay, windowFrom, windowTo, plannedStart, plannedMinutes, people, circuitId, jobKind, ...call } =
    read.value;
  const ordered = Boolean(windowDay || plannedStart || circuitId || people.length > 0);

  const saved = await inOneGo(member.companyId, async (tx) => {
    const site = await tx.site.findFirst({ where: { id: call.siteId }, select: { timeZone: true } });
    const { errors, plan } = planFrom(
      { windowDay, windowFrom, windowTo, plannedStart, plannedMinutes, people },
      site?.timeZone ?? "UTC",
    );
    if (Object.keys(errors).length > 0) throw new Refused(errors);
    const callId = await takeCall(tx, { ...call, equipmentId: call.equipmentId ?? null }, member.personId);
    if (!callId) throw new Refused({ siteId: "This customer has no such site or unit. Choose again." });
    await recordOfficeEvent(tx, member.personId, { what: "took", subject: "service-call", subjectId: callId });
    if (!ordered) return `calls/${callId}`;
    const orderId = await openWorkOrder(tx, callId);
    if (!orderId) throw new Error("a call just taken cannot be ordered");
    const visit = await planVisit(tx, orderId, plan);
    if (!visit.ok) throw new Refused({ people: "One of these people cannot be sent. Choose again." });
    if (circuitId) {
      const job = await openJob(tx, { workOrderId: orderId, circuitId, kind: jobKind }, member);
      if (!job.ok) throw new Refused({ circuitId: "This circuit does not belong to the site. Choose again." });
    }
    return `work-orders/${orderId}`;
  });
  if (!saved.ok) return saved;
  redirect(`/${member.slug}/${saved.value}`);
}

/** Customers, sites and units by name, phone, address or serial number; the value leads the form on. */
export async function searchCustomers(
  company: string,
  query: string,
): Promise<{ value: string; label: string; detail: string }[]> {
  const member = await requireMember(company, "dispatcher", "supervisor", "owner");
  if (typeof query !== "string") return [];
  const asked = { kinds: ["customer", "site", "equipment"], limit: 12 } as const;
  const found = await withTenant(member.companyId, (tx) => searchRegister(tx, query.slice(0, 100), asked));
  return found.map((thing) => {
    const chosen = new URLSearchParams({ customer: thing.customerId });
    if (thing.siteId) chosen.set("site", thing.siteId);
    if (thing.kind === "equipment") chosen.set("unit", thing.id);
    return { value: chosen.toString(), label: thing.label, detail: thing.detail };
  });
}

const offerQuestion = z.strictObject({
  siteId: z.uuid().lowercase(),
  circuitId: z.uuid().lowercase().nullable(),
  minutes: z.int().min(5).max(1440),
  urgency: z.enum(urgencies),
});

/** The windows that can be kept for a call that is still being taken; null where they cannot be asked for. */
export async function offerCall(company: string, asked: unknown): Promise<readonly WindowOffer[] | null> {
  const member = await requireMember(company, "dispatcher", "supervisor", "owner");
  const question = offerQuestion.safeParse(asked);
  return question.success ? offerWindows(member, question.data, new Date()) : null;
}

/** Thrown inside the transaction so that everything before it is undone. */
class Refused extends Error {
  constructor(readonly fields: Record<string, string>) {
    super("refused");
  }
}

async function inOneGo<T>(...work: Parameters<typeof withTenant<T>>): Promise<Result<T, InvalidFields>> {
  try {
    return ok(await withTenant(...work));
  } catch (problem) {
    if (problem instanceof Refused) return invalidFields(problem.fields);
    throw problem;
  }
}
