import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { PersonId } from "@/lib/ids";
import type { ToolKind } from "@/lib/registry/tool";
import { allowedDifference, eventsOf, isBlankOffGood, type ToolEventFields } from "@/lib/registry/tool-event";
import { err, ok, type Result } from "@/lib/result";
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
