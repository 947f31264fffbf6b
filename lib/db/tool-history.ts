import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { Entry } from "@/lib/hvac/procedure";
import type { PersonId } from "@/lib/ids";
import type { ToolKind } from "@/lib/registry/tool";
import { allowedDifference, eventsOf, isBlankOffGood, type ToolEventFields } from "@/lib/registry/tool-event";
import { err, ok, type Result } from "@/lib/result";
import { dayAt } from "@/lib/work/site-time";
import { fromColumn, toColumn } from "./calendar-date";
import type { Prisma } from "./generated/client";
import type { TenantTx } from "./tenant";

export type ToolEventRefusal =
  | { code: "not-found" }
  | { code: "not-of-this-kind" }
  | { code: "no-such-tool" }
  | { code: "no-such-job" }
  | { code: "no-accuracy" };

/** Writes down what became of a tool and lets it count: fresh oil, a new due date, two gauges in doubt. */
export async function addToolEvent(
  tx: TenantTx,
  toolId: string,
  fields: ToolEventFields,
  personId: PersonId,
): Promise<Result<string, ToolEventRefusal>> {
  const tool = await tx.tool.findFirst({ where: { id: toolId } });
  if (!tool) return err({ code: "not-found" });
  if (!eventsOf(tool.kind as ToolKind).includes(fields.what)) return err({ code: "not-of-this-kind" });
  const { what, micron, reading, otherReading, otherToolId } = fields;
  const onDay = toColumn(fields.onDay)!;
  const row = { id: uuidv7(), toolId, onDay, personId, what, note: fields.note };
  const ofTool = { where: { id: toolId } };
  if (what === "compared") {
    const other = await tx.tool.findFirst({ where: { id: otherToolId ?? "", kind: tool.kind, NOT: { id: toolId } } });
    if (!other || other.resolutionUnit !== tool.resolutionUnit) return err({ code: "no-such-tool" });
    if (fields.jobId !== null && (await tx.circuitJob.count({ where: { id: fields.jobId } })) === 0)
      return err({ code: "no-such-job" });
    const allowed = allowedDifference(reading!, tool, otherReading!, other);
    if (allowed === null) return err({ code: "no-accuracy" });
    const good = Math.abs(reading! - otherReading!) <= allowed;
    await tx.toolEvent.create({
      data: { ...row, otherToolId: other.id, reading, otherReading, allowed, jobId: fields.jobId, good },
    });
    if (!good) await tx.tool.updateMany({ where: { id: { in: [toolId, other.id] } }, data: { doubtedOn: onDay } });
    return ok(row.id);
  }
  const good = what === "blank-off" ? isBlankOffGood(micron!, tool.ultimateMicron) !== false : fields.result === "good";
  const due = what === "calibrated" || what === "checked" ? toColumn(fields.dueOn) : null;
  await tx.toolEvent.create({ data: { ...row, good, micron: what === "blank-off" ? micron : null, dueOn: due } });
  const latest = (await tx.toolEvent.count({ where: { toolId, what, onDay: { gt: onDay } } })) === 0;
  if (!latest) return ok(row.id); // an older happening written down late changes nothing that came after it
  if (what === "oil-changed")
    await tx.tool.updateMany({
      ...ofTool,
      data: { oilChangedAt: onDay, oilRunHours: await hoursSince(tx, toolId, onDay) },
    });
  if (what === "calibrated" && good)
    await tx.tool.updateMany({ ...ofTool, data: { calibratedOn: onDay, calibrationDueOn: due, doubtedOn: null } });
  if (what === "calibrated" && !good) await tx.tool.updateMany({ ...ofTool, data: { doubtedOn: onDay } });
  if (what === "checked") await tx.tool.updateMany({ ...ofTool, data: { checkDueOn: good ? due : onDay } });
  return ok(row.id);
}

/**
 * What a job's evacuation says of new oil in the pump, written down once with the entry's own id: the hours begin anew at that moment, so
 * that what the pump ran afterwards stays on the count. An unknown pump, or oil changed again since, changes nothing.
 */
export async function noteOilChange(tx: TenantTx, entry: Entry, timeZone: string): Promise<void> {
  if (entry.kind !== "step-recorded" || entry.body.step !== "evacuate") return;
  const { oilChangedAt, pump } = entry.body.evidence;
  if (!oilChangedAt || !pump.toolId) return;
  const at = new Date(oilChangedAt);
  const tool = await tx.tool.findFirst({ where: { id: pump.toolId, kind: "pump" } });
  const told = [entry.id, ...(entry.supersedes ? [entry.supersedes.entry] : [])]; // a correction says the same change again
  if (!tool || (await tx.toolEvent.count({ where: { id: { in: told } } })) > 0) return;
  const onDay = toColumn(dayAt(at, timeZone))!;
  const since = { toolId: tool.id, what: "oil-changed" };
  const isLatest = (await tx.toolEvent.count({ where: { ...since, onDay: { gt: onDay } } })) === 0;
  await tx.toolEvent.create({
    data: { ...since, id: entry.id, onDay, personId: entry.person, jobId: entry.job, good: true, note: "" },
  });
  if (!isLatest) return;
  const { _sum } = await tx.toolUse.aggregate({
    where: { toolId: tool.id, superseded: false, usedAt: { gte: at } },
    _sum: { runHours: true },
  });
  await tx.tool.update({
    where: { tenantId_id: { tenantId: tool.tenantId, id: tool.id } },
    data: { oilChangedAt: onDay, oilRunHours: _sum.runHours ?? 0 },
  });
}

/** Hours the logs say a pump ran after the day of its oil change: records that came in before the change was written down. */
async function hoursSince(tx: TenantTx, toolId: string, onDay: Date): Promise<number> {
  const nextDay = new Date(onDay.getTime() + 86_400_000);
  const { _sum } = await tx.toolUse.aggregate({
    where: { toolId, superseded: false, usedAt: { gte: nextDay } },
    _sum: { runHours: true },
  });
  return _sum.runHours ?? 0;
}

const shownUse = {
  entryId: true,
  jobId: true,
  step: true,
  usedAt: true,
  runHours: true,
  micron: true,
  superseded: true,
  job: { select: { number: true, strength: true } },
  entry: { select: { person: { select: { name: true } } } },
} satisfies Prisma.ToolUseSelect;
const shownEvent = {
  person: { select: { name: true } },
  tool: { select: { id: true, name: true, resolutionUnit: true } },
  otherTool: { select: { id: true, name: true } },
  job: { select: { id: true, number: true } },
} satisfies Prisma.ToolEventInclude;

const MOST = 100;

/** The latest of what was written down about a tool, and of the records that name it; and blank-off tests from both, oldest first. */
export async function readToolHistory(tx: TenantTx, toolId: string) {
  const events = await tx.toolEvent.findMany({
    where: { OR: [{ toolId }, { otherToolId: toolId }] },
    include: shownEvent,
    orderBy: [{ onDay: "desc" }, { id: "desc" }],
    take: MOST,
  });
  const uses = await tx.toolUse.findMany({
    where: { toolId },
    select: shownUse,
    orderBy: { usedAt: "desc" },
    take: MOST,
  });
  const jobs = await tx.toolUse.findMany({ where: { toolId }, distinct: ["jobId"], select: { jobId: true } });
  const blankOffs = [
    ...events.flatMap(({ id, micron, onDay }) => (micron === null ? [] : [{ id, micron, at: onDay }])),
    ...uses.flatMap(({ entryId, micron, usedAt, superseded }) =>
      micron === null || superseded ? [] : [{ id: entryId, micron, at: usedAt }],
    ),
  ].sort((a, b) => a.at.getTime() - b.at.getTime());
  return {
    events: events.map((event) => ({ ...event, onDay: fromColumn(event.onDay)!, dueOn: fromColumn(event.dueOn) })),
    uses: uses.map((use) => ({ ...use, job: { ...use.job, number: Number(use.job.number) } })),
    blankOffs,
    jobs: jobs.length,
  };
}
