import "server-only";
import { JobId } from "@/lib/ids";
import { OIL_HOURS_LIMIT } from "@/lib/registry/tool-faults";
import { listHolds, type RecordedHold } from "@/lib/work/holds";
import { addDays } from "@/lib/work/site-time";
import { fromColumn } from "./calendar-date";
import { type JobSummary, readJob } from "./job-summary";
import { listMemberNames } from "./jobs";
import type { TenantTx } from "./tenant";

/** What waits for a supervisor: overrides asked, jobs in doubt, quarantine, and tools that fall out of date by 30 days from `today`. */
export async function listExceptions(tx: TenantTx, today: string) {
  const jobs = await tx.circuitJob.findMany({
    where: {
      OR: [
        { asksOverride: true },
        { state: "needs-review" },
        { state: { not: "closed" }, summary: { path: ["alarms", "0"], not: "" } },
      ],
    },
    include: {
      circuit: { select: { name: true, equipment: { select: { name: true } } } },
      workOrder: { select: { serviceCall: { select: { customer: { select: { name: true } } } } } },
    },
    orderBy: { changedAt: "desc" },
    take: 100,
  });
  const shown = jobs.map((job) => {
    const summary = job.summary as unknown as Partial<JobSummary>;
    return {
      id: job.id,
      number: job.number,
      state: job.state,
      unit: `${job.circuit.equipment.name}, ${job.circuit.name}`,
      customer: job.workOrder.serviceCall.customer.name,
      asks: summary.asks ?? [],
      missing: summary.missing ?? [],
      reviews: summary.reviews ?? [],
      alarms: summary.alarms ?? [],
    };
  });
  const quarantined = await tx.quarantine.findMany({
    where: { reviewedAt: null },
    select: { id: true, reason: true, detail: true, receivedAt: true, person: { select: { name: true } } },
    orderBy: { receivedAt: "desc" },
    take: 50,
  });
  const asked = [];
  for (const job of shown) {
    for (const ask of job.asks)
      asked.push({ job, ask, hold: ask.step === "hold" ? await latestHold(tx, job.id) : null });
  }
  return {
    names: await listMemberNames(tx),
    asked,
    toReview: shown.filter((job) => job.reviews.length + job.alarms.length > 0),
    quarantined: quarantined.map(({ detail, ...each }) => ({ ...each, message: messageOf(detail) ?? each.reason })),
    falling: await listFallingOutOfDate(tx, addDays(today, 30)),
  };
}

/** The hold an override is asked for, so that it can be looked at where the decision is taken. */
async function latestHold(tx: TenantTx, jobId: string): Promise<RecordedHold | null> {
  return listHolds(await readJob(tx, JobId.parse(jobId)))[0] ?? null;
}

/** A tool or cylinder that must not be leaned on by `by`, or already now. */
export interface Falling {
  readonly id: string;
  readonly name: string;
  readonly register: "tools" | "cylinders";
  readonly what: "calibration" | "check" | "oil" | "doubt" | "requalification";
  /** The last day it counts; for oil and doubt the day since when. */
  readonly due: string | null;
  /** Of a pump whose oil is named, else null. */
  readonly oilRunHours: number | null;
  readonly holder: string | null;
}

/** Oil from four fifths of its hours on is named, so that it is changed before it is due. */
const OIL_SOON_HOURS = 0.8 * OIL_HOURS_LIMIT;

export async function listFallingOutOfDate(tx: TenantTx, by: string): Promise<Falling[]> {
  const before = new Date(`${by}T00:00:00Z`);
  const tools = await tx.tool.findMany({
    where: {
      retiredAt: null,
      OR: [
        { calibrationDueOn: { lte: before } },
        { checkDueOn: { lte: before } },
        { doubtedOn: { not: null } },
        { kind: "pump", oilRunHours: { gte: OIL_SOON_HOURS } },
      ],
    },
    include: { holder: { select: { name: true } } },
  });
  const cylinders = await tx.cylinder.findMany({
    where: { retiredAt: null, requalifyBy: { lte: before } },
    select: { id: true, label: true, requalifyBy: true },
  });
  return [
    ...tools.flatMap((tool): Falling[] => {
      const { id, name, oilRunHours } = tool;
      const named = { id, name, register: "tools" as const, oilRunHours: null, holder: tool.holder?.name ?? null };
      return [
        ...(tool.doubtedOn ? [{ ...named, what: "doubt" as const, due: fromColumn(tool.doubtedOn) }] : []),
        ...(tool.kind === "pump" && (oilRunHours ?? 0) >= OIL_SOON_HOURS
          ? [{ ...named, what: "oil" as const, due: fromColumn(tool.oilChangedAt), oilRunHours }]
          : []),
        ...(tool.calibrationDueOn && tool.calibrationDueOn <= before
          ? [{ ...named, what: "calibration" as const, due: fromColumn(tool.calibrationDueOn) }]
          : []),
        ...(tool.checkDueOn && tool.checkDueOn <= before
          ? [{ ...named, what: "check" as const, due: fromColumn(tool.checkDueOn) }]
          : []),
      ];
    }),
    ...cylinders.map(
      (each): Falling => ({
        id: each.id,
        name: `Cylinder ${each.label}`,
        register: "cylinders",
        what: "requalification",
        due: fromColumn(each.requalifyBy),
        oilRunHours: null,
        holder: null,
      }),
    ),
  ].sort((a, b) => ((a.due ?? "") < (b.due ?? "") ? -1 : 1));
}

function messageOf(detail: unknown): string | null {
  const message = (detail as { message?: unknown } | null)?.message;
  return typeof message === "string" ? message : null;
}
