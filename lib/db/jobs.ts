import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { Member } from "@/lib/auth/session";
import type { CriteriaRow, JobKindOrUnknown } from "@/lib/hvac/procedure";
import { TEMPLATE_VERSION } from "@/lib/hvac/procedure";
import { JobId } from "@/lib/ids";
import { readTightenings } from "@/lib/registry/tightening";
import { err, ok, type Result } from "@/lib/result";
import { circuitFactsOf } from "@/lib/work/circuit-facts";
import { dayAt } from "@/lib/work/site-time";
import { proposeCallback } from "./callbacks";
import { nextNumber } from "./numbers";
import { appendOfficeEntry } from "./office-entry";
import type { TenantTx } from "./tenant";
import { lockOrder } from "./work-orders";

/** Opens the sealed-system work on one circuit of a work order's site: the job, and the first entry of its log. */
export async function openJob(
  tx: TenantTx,
  job: { workOrderId: string; circuitId: string; kind: JobKindOrUnknown },
  by: Member,
  at = new Date(),
): Promise<Result<JobId, { code: "not-found" | "order-not-open" | "already-open" }>> {
  await lockOrder(tx, job.workOrderId);
  const order = await tx.workOrder.findFirst({
    where: { id: job.workOrderId },
    select: { state: true, serviceCall: { select: { siteId: true, site: { select: { timeZone: true } } } } },
  });
  const circuit = await tx.circuit.findFirst({ where: { id: job.circuitId }, include: { equipment: true } });
  if (!order || !circuit || circuit.equipment.siteId !== order.serviceCall.siteId) return err({ code: "not-found" });
  if (order.state !== "open") return err({ code: "order-not-open" });
  const open = await tx.circuitJob.count({ where: { circuitId: job.circuitId, workOrderId: job.workOrderId } });
  if (open > 0) return err({ code: "already-open" });

  const id = JobId.parse(uuidv7());
  await tx.circuitJob.create({
    data: { id, number: await nextNumber(tx, "circuit_job"), workOrderId: job.workOrderId, circuitId: job.circuitId },
  });
  const registered = { ...circuit, applianceKind: circuit.equipment.applianceKind };
  const facts = circuitFactsOf(registered, by.ruleSet, dayAt(at, order.serviceCall.site.timeZone));
  const criteria = await companyCriteria(tx);
  const body = { kind: job.kind, templateVersion: TEMPLATE_VERSION, circuit: facts, criteria };
  await appendOfficeEntry(tx, id, by, { kind: "job-opened", body }, at);
  await proposeCallback(tx, job.workOrderId); // now the circuit is known
  return ok(id);
}

/** The company's own rows; they may only tighten, and the fold ignores one that would not. */
async function companyCriteria(tx: TenantTx): Promise<CriteriaRow[]> {
  return readTightenings((await tx.company.findFirst({ select: { criteria: true } }))?.criteria);
}

const shown = {
  circuit: {
    include: { equipment: { select: { id: true, name: true, maker: true, model: true, serial: true, place: true } } },
  },
  workOrder: {
    select: {
      id: true,
      number: true,
      serviceCall: {
        select: {
          number: true,
          symptom: true,
          customer: { select: { id: true, name: true } },
          site: { select: { id: true, name: true, street: true, city: true, timeZone: true } },
        },
      },
      visits: { select: { id: true, people: { select: { person: { select: { name: true } } } } } },
    },
  },
} as const;

export function findJob(tx: TenantTx, id: JobId) {
  return tx.circuitJob.findFirst({ where: { id }, include: shown });
}

export type JobFilter = "open" | "needs-review" | "asks-override" | "closed" | "weak";

/** Jobs for the office's lists, the last changed first. */
export function listJobs(tx: TenantTx, filter: JobFilter) {
  return tx.circuitJob.findMany({ where: filters[filter], include: shown, orderBy: { changedAt: "desc" }, take: 200 });
}

const filters = {
  open: { state: { in: ["open", "left-for-today", "needs-review"] } },
  "needs-review": { state: "needs-review" },
  "asks-override": { asksOverride: true },
  closed: { state: "closed" },
  weak: { strength: { in: ["weak", "none"] }, state: "closed" },
};

/** Names of everyone who ever belonged to the company, by id: entries outlive memberships. */
export async function listMemberNames(tx: TenantTx): Promise<ReadonlyMap<string, string>> {
  const members = await tx.member.findMany({ select: { personId: true, name: true } });
  return new Map(members.map((member) => [member.personId, member.name]));
}
