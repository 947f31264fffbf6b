import "server-only";
import { v7 as uuidv7 } from "uuid";
import { isUuid, type PersonId } from "@/lib/ids";
import { chooseOrigin, type OriginCandidate } from "@/lib/quality";
import { err, ok, type Result } from "@/lib/result";
import { isCallbackCauseCode } from "@/lib/work/callback-causes";
import { dayAt } from "@/lib/work/site-time";
import { fromColumn, toColumn } from "./calendar-date";
import { recordOfficeEvent } from "./office-events";
import type { TenantTx } from "./tenant";

const MS_PER_DAY = 86_400_000;

export type CallbackState = "proposed" | "confirmed" | "not-related";

/**
 * Proposes that a work order comes back from an earlier job on its unit, when one was closed within the company's window.
 * Asked again when more of the order is known, it may name a likelier job; what a person has decided stays.
 */
export async function proposeCallback(tx: TenantTx, workOrderId: string): Promise<void> {
  const order = await findOrder(tx, workOrderId);
  if (!order) return;
  const { callbackWindowDays } = await tx.company.findFirstOrThrow({ select: { callbackWindowDays: true } });
  const origin = chooseOrigin(await listOrigins(tx, order, callbackWindowDays), callbackWindowDays);
  if (!origin) return;
  const basis = origin.sameCircuit ? "same-circuit" : "same-unit";
  const proposal = { originJobId: origin.jobId, basis };
  await tx.callback.createMany({
    data: [{ workOrderId, cameOn: toColumn(order.day)!, ...proposal }],
    skipDuplicates: true,
  });
  await tx.callback.updateMany({ where: { workOrderId, state: "proposed", NOT: proposal }, data: proposal });
}

interface ReturnOrder {
  readonly id: string;
  /** The site's day on which it was opened. */
  readonly day: string;
  readonly equipmentIds: readonly string[];
  readonly circuitIds: readonly string[];
}

async function findOrder(tx: TenantTx, id: string): Promise<ReturnOrder | null> {
  const order = await tx.workOrder.findFirst({
    where: { id },
    select: {
      openedAt: true,
      serviceCall: { select: { equipmentId: true, site: { select: { timeZone: true } } } },
      jobs: { select: { circuitId: true, circuit: { select: { equipmentId: true } } } },
    },
  });
  if (!order) return null;
  const { equipmentId, site } = order.serviceCall;
  return {
    id,
    day: dayAt(order.openedAt, site.timeZone),
    equipmentIds: [...(equipmentId ? [equipmentId] : []), ...order.jobs.map(({ circuit }) => circuit.equipmentId)],
    circuitIds: order.jobs.map(({ circuitId }) => circuitId),
  };
}

export interface CallbackOrigin extends OriginCandidate {
  readonly number: bigint;
  readonly circuitName: string;
  readonly unitName: string;
  readonly closedOn: string;
  readonly strength: string;
  readonly jobKind: string;
}

/** The closed jobs on an order's units inside the window before it, the last closed first. */
async function listOrigins(tx: TenantTx, order: ReturnOrder, windowDays: number): Promise<CallbackOrigin[]> {
  const day = toColumn(order.day)!;
  const from = new Date(day.getTime() - windowDays * MS_PER_DAY);
  const outcomes = await tx.jobOutcome.findMany({
    where: {
      closedOn: { gte: from, lte: day },
      job: { workOrderId: { not: order.id }, circuit: { equipmentId: { in: [...order.equipmentIds] } } },
    },
    select: {
      jobId: true,
      closedOn: true,
      strength: true,
      jobKind: true,
      job: {
        select: { number: true, circuit: { select: { id: true, name: true, equipment: { select: { name: true } } } } },
      },
    },
    orderBy: [{ closedOn: "desc" }, { jobId: "desc" }],
    take: 50,
  });
  return outcomes.map(({ jobId, closedOn, strength, jobKind, job }) => ({
    jobId,
    number: job.number,
    circuitName: job.circuit.name,
    unitName: job.circuit.equipment.name,
    sameCircuit: order.circuitIds.includes(job.circuit.id),
    closedOn: fromColumn(closedOn)!,
    daysBetween: (day.getTime() - closedOn!.getTime()) / MS_PER_DAY,
    strength,
    jobKind,
  }));
}

const shown = {
  workOrder: {
    select: {
      id: true,
      number: true,
      openedAt: true,
      state: true,
      serviceCall: {
        select: {
          symptom: true,
          urgency: true,
          customer: { select: { id: true, name: true } },
          site: { select: { name: true, timeZone: true } },
        },
      },
      jobs: { select: { id: true, number: true, circuitId: true } },
    },
  },
  originJob: {
    select: {
      id: true,
      number: true,
      circuit: { select: { id: true, name: true, equipment: { select: { id: true, name: true } } } },
      outcomes: { select: { closedOn: true, strength: true, jobKind: true } },
    },
  },
  ownCause: { select: { words: true } },
  decider: { select: { name: true } },
} as const;

/** Callbacks in one state, the latest return first. */
export async function listCallbacks(tx: TenantTx, state: CallbackState) {
  const rows = await tx.callback.findMany({ where: { state }, include: shown, orderBy: { cameOn: "desc" }, take: 200 });
  return rows.map(withDays);
}

export function countProposedCallbacks(tx: TenantTx): Promise<number> {
  return tx.callback.count({ where: { state: "proposed" } });
}

/** One callback with every job it could come from instead; null when there is none for this order. */
export async function findCallback(tx: TenantTx, workOrderId: string) {
  const callback = await tx.callback.findFirst({ where: { workOrderId }, include: shown });
  const order = callback && (await findOrder(tx, workOrderId));
  if (!order) return null;
  const { callbackWindowDays } = await tx.company.findFirstOrThrow({ select: { callbackWindowDays: true } });
  return {
    callback: withDays(callback),
    origins: await listOrigins(tx, order, callbackWindowDays),
    windowDays: callbackWindowDays,
  };
}

export type ShownCallback = NonNullable<Awaited<ReturnType<typeof findCallback>>>["callback"];

function withDays<T extends { cameOn: Date; originJob: { outcomes: { closedOn: Date | null }[] } }>(callback: T) {
  const closedOn = callback.originJob.outcomes[0]?.closedOn ?? null;
  return {
    ...callback,
    cameOn: fromColumn(callback.cameOn)!,
    closedOn: fromColumn(closedOn),
    daysBetween: closedOn && (callback.cameOn.getTime() - closedOn.getTime()) / MS_PER_DAY,
  };
}

export interface CallbackCosts {
  readonly workHours: number | null;
  readonly travelCents: number | null;
  readonly refrigerantCents: number | null;
  readonly partsCents: number | null;
  readonly goodwillCents: number | null;
}

export type CallbackDecision =
  | {
      readonly state: "confirmed";
      readonly originJobId: string;
      /** A code of the program's list, or the id of a cause of the company's own. */
      readonly cause: string;
      readonly note: string;
      readonly costs: CallbackCosts;
    }
  | { readonly state: "not-related"; readonly note: string };

export type DecisionRefusal = { code: "not-found" | "changed-meanwhile" | "no-such-cause" | "no-such-origin" };

/** What a person says of a proposed callback, or says anew; refused when somebody decided since `version` was read. */
export async function decideCallback(
  tx: TenantTx,
  asked: { workOrderId: string; version: number },
  decision: CallbackDecision,
  by: PersonId,
): Promise<Result<null, DecisionRefusal>> {
  const { workOrderId, version } = asked;
  const current = await findCallback(tx, workOrderId);
  if (!current) return err({ code: "not-found" });
  const columns = decision.state === "confirmed" ? await confirmedColumns(tx, current, decision) : ok(notRelated);
  if (!columns.ok) return columns;
  const { count } = await tx.callback.updateMany({
    where: { workOrderId, version },
    data: {
      ...columns.value,
      state: decision.state,
      note: decision.note,
      decidedBy: by,
      decidedAt: new Date(),
      version: { increment: 1 },
    },
  });
  if (count === 0) return err({ code: "changed-meanwhile" });
  await recordOfficeEvent(tx, by, {
    what: decision.state,
    subject: "callback",
    subjectId: workOrderId,
    detail: {
      before: current.callback.state,
      ...(decision.state === "confirmed" && { originJobId: decision.originJobId, cause: decision.cause }),
    },
  });
  return ok(null);
}

const notRelated = {
  causeCode: null,
  ownCauseId: null,
  workHours: null,
  travelCents: null,
  refrigerantCents: null,
  partsCents: null,
  goodwillCents: null,
};

async function confirmedColumns(
  tx: TenantTx,
  { callback, origins }: NonNullable<Awaited<ReturnType<typeof findCallback>>>,
  { originJobId, cause, costs }: CallbackDecision & { state: "confirmed" },
) {
  const origin = origins.find(({ jobId }) => jobId === originJobId);
  if (!origin && originJobId !== callback.originJobId) return err({ code: "no-such-origin" });
  const own = isCallbackCauseCode(cause) ? null : await findOwnCause(tx, cause);
  if (own === undefined) return err({ code: "no-such-cause" });
  return ok({
    originJobId,
    ...(origin && { basis: origin.sameCircuit ? "same-circuit" : "same-unit" }),
    causeCode: own === null ? cause : null,
    ownCauseId: own,
    ...costs,
  });
}

async function findOwnCause(tx: TenantTx, id: string): Promise<string | undefined> {
  if (!isUuid(id)) return undefined;
  return (await tx.callbackCause.findFirst({ where: { id }, select: { id: true } }))?.id;
}

/** Causes of the company's own; the retired ones only where they are asked for, old callbacks still name them. */
export function listOwnCauses(tx: TenantTx, asked: { retired: boolean }) {
  return tx.callbackCause.findMany({
    where: asked.retired ? {} : { retiredAt: null },
    orderBy: { words: "asc" },
    select: { id: true, words: true, retiredAt: true },
  });
}

/** Adds a cause; null when one of these words is on the list already. */
export async function addOwnCause(tx: TenantTx, words: string): Promise<string | null> {
  const same = await tx.callbackCause.count({
    where: { words: { equals: words, mode: "insensitive" }, retiredAt: null },
  });
  if (same > 0) return null;
  const id = uuidv7();
  await tx.callbackCause.create({ data: { id, words } });
  return id;
}

export async function setCauseRetired(tx: TenantTx, id: string, retired: boolean): Promise<boolean> {
  const retiredAt = retired ? new Date() : null;
  return (await tx.callbackCause.updateMany({ where: { id }, data: { retiredAt } })).count === 1;
}

export interface CallbackRule {
  readonly hourCostCents: number | null;
  readonly currency: string;
}

/** What an hour of a return costs here; no price until somebody gives one. */
export async function findCallbackRule(tx: TenantTx): Promise<CallbackRule> {
  const rule = await tx.callbackRule.findFirst({ select: { hourCostCents: true, currency: true } });
  return rule ?? { hourCostCents: null, currency: "USD" };
}

export async function saveCallbackRule(tx: TenantTx, rule: CallbackRule): Promise<void> {
  const { count } = await tx.callbackRule.updateMany({ data: rule });
  if (count === 0) await tx.callbackRule.create({ data: rule });
}
