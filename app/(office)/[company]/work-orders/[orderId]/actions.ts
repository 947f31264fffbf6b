"use server";

import { revalidatePath } from "next/cache";
import { notFound } from "next/navigation";
import * as z from "zod";
import { type Member, requireMember } from "@/lib/auth/session";
import { openJob } from "@/lib/db/jobs";
import { recordOfficeEvent } from "@/lib/db/office-events";
import { withTenant } from "@/lib/db/tenant";
import { planVisit, replanVisit, type VisitRefusal } from "@/lib/db/visits";
import { cancelWorkOrder, finishWorkOrder } from "@/lib/db/work-orders";
import { isUuid } from "@/lib/ids";
import { type InvalidFields, invalidFields, readForm } from "@/lib/registry/form";
import { err, ok, type Result } from "@/lib/result";
import { jobKindForm, planFrom, visitForm } from "@/lib/work/call-form";
import type { OrderRefusal } from "@/lib/work/order-state";

const savePlanForm = z.strictObject({
  ...visitForm.shape,
  orderId: z.uuid(),
  visitId: z.uuid().optional(),
  version: z.coerce.number<string>().int().optional(),
});

/** Plans a new visit or changes one that has not begun. */
export async function savePlan(_previous: unknown, form: FormData): Promise<Result<null, InvalidFields>> {
  const member = await requirePlanner(form);
  const read = readForm(form, savePlanForm, ["people"]);
  if (!read.ok) return read;
  const { orderId, visitId, version, ...wire } = read.value;
  const saved = await withTenant(member.companyId, async (tx): Promise<Result<null, InvalidFields>> => {
    const order = await tx.workOrder.findFirst({
      where: { id: orderId },
      select: { serviceCall: { select: { site: { select: { timeZone: true } } } } },
    });
    if (!order) notFound();
    const { errors, plan } = planFrom(wire, order.serviceCall.site.timeZone);
    if (Object.keys(errors).length > 0) return invalidFields(errors);
    const done = visitId ? await replanVisit(tx, visitId, version ?? 0, plan) : await planVisit(tx, orderId, plan);
    if (!done.ok) return refusedPlan(done.error);
    const subjectId = visitId ?? String(done.value);
    await recordOfficeEvent(tx, member.personId, {
      what: visitId ? "replanned" : "planned",
      subject: "visit",
      subjectId,
    });
    return ok(null);
  });
  if (saved.ok) revalidatePath(`/${member.slug}`, "layout");
  return saved;
}

function refusedPlan(refusal: VisitRefusal): Result<never, InvalidFields> {
  switch (refusal.code) {
    case "not-found":
      return notFound();
    case "order-not-open":
      return invalidFields({ "": "The work order has ended. Nothing was changed." });
    case "person-not-available":
      return invalidFields({ people: "One of these people cannot be sent any more. Choose again." });
    case "changed-meanwhile":
      return invalidFields({
        "": "Somebody changed this visit meanwhile. Load the page to see it; nothing was overwritten.",
      });
    case "not-movable":
    case "not-a-step":
      return invalidFields({ "": "The visit has begun or ended; its plan stays as it is." });
  }
}

const addJobForm = z.strictObject({
  orderId: z.uuid(),
  circuitId: z.uuid("Choose the circuit."),
  jobKind: jobKindForm,
});

export async function addJob(_previous: unknown, form: FormData): Promise<Result<null, InvalidFields>> {
  const member = await requirePlanner(form);
  const read = readForm(form, addJobForm);
  if (!read.ok) return read;
  const { orderId: workOrderId, circuitId, jobKind: kind } = read.value;
  const added = await withTenant(member.companyId, (tx) => openJob(tx, { workOrderId, circuitId, kind }, member));
  if (added.ok) {
    revalidatePath(`/${member.slug}/work-orders/${workOrderId}`);
    return ok(null);
  }
  switch (added.error.code) {
    case "not-found":
      return invalidFields({ circuitId: "There is no such circuit at this site." });
    case "order-not-open":
      return invalidFields({ circuitId: "The work order has ended." });
    case "already-open":
      return invalidFields({ circuitId: "This work order already has a job on that circuit." });
  }
}

/** Ends the work order, or says what stands in the way. */
export async function endOrder(_previous: unknown, form: FormData): Promise<Result<null, { message: string }>> {
  const member = await requirePlanner(form);
  const orderId = form.get("orderId");
  if (!isUuid(orderId)) notFound();
  const as = form.get("as") === "done" ? "done" : "cancelled";
  const ended = await withTenant(member.companyId, async (tx) => {
    const outcome = as === "done" ? await finishWorkOrder(tx, orderId) : await cancelWorkOrder(tx, orderId);
    if (outcome.ok)
      await recordOfficeEvent(tx, member.personId, { what: as, subject: "work-order", subjectId: orderId });
    return outcome;
  });
  if (ended.ok) {
    revalidatePath(`/${member.slug}`, "layout");
    return ok(null);
  }
  if (ended.error.code === "not-found") notFound();
  return err({ message: refusalWords(ended.error) });
}

function refusalWords(refusal: OrderRefusal): string {
  switch (refusal.code) {
    case "not-open":
      return "The work order has ended already.";
    case "visit-under-way":
      return "A visit is still to come or under way.";
    case "jobs-not-closed":
      return `Not proven yet: job ${refusal.numbers.join(", ")}.`;
    case "field-work-recorded":
      return `The circuit was worked on in job ${refusal.numbers.join(", ")}; finish it instead.`;
  }
}

function requirePlanner(form: FormData): Promise<Member> {
  return requireMember(form.get("company"), "dispatcher", "supervisor", "owner");
}
