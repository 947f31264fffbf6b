import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { InvalidFields } from "@/lib/registry/form";
import type { ToolFields, ToolKind } from "@/lib/registry/tool";
import { keepWhatCameSince, type ToolShown } from "@/lib/registry/tool-shown";
import { err, ok, type Result } from "@/lib/result";
import { fromColumn, toColumn } from "./calendar-date";
import type { Tool } from "./generated/client";
import type { TenantTx } from "./tenant";

export type HolderRefusal = { code: "not-found" | "no-such-holder" };

const holder = { holder: { select: { personId: true, name: true } } } as const;

/** Tools in use (or those put away) by kind and name, dates as calendar dates. */
export async function listTools(tx: TenantTx, asked: { retired: boolean }) {
  const tools = await tx.tool.findMany({
    where: { retiredAt: asked.retired ? { not: null } : null },
    orderBy: [{ kind: "asc" }, { name: "asc" }],
    include: holder,
  });
  return tools.map(withDates);
}

export async function findTool(tx: TenantTx, id: string) {
  const tool = await tx.tool.findFirst({ where: { id }, include: holder });
  return tool && withDates(tool);
}

export async function createTool(tx: TenantTx, fields: ToolFields): Promise<Result<string, HolderRefusal>> {
  if (!(await isHolder(tx, fields.heldBy))) return err({ code: "no-such-holder" });
  const id = uuidv7();
  await tx.tool.create({ data: { id, ...columns(fields) } });
  return ok(id);
}

/** Writes what the form changed and leaves what logs and history changed since it was opened; what was written, or why nothing was. */
export async function updateTool(
  tx: TenantTx,
  id: string,
  fields: ToolFields,
  shown: ToolShown,
): Promise<Result<ToolFields, HolderRefusal | InvalidFields>> {
  if (!(await isHolder(tx, fields.heldBy))) return err({ code: "no-such-holder" });
  await tx.$queryRaw`select 1 from tool where id = ${id}::uuid for update`;
  const now = await findTool(tx, id);
  if (!now) return err({ code: "not-found" });
  const kept = keepWhatCameSince(shown, fields, now);
  if (kept.ok) await tx.tool.updateMany({ where: { id }, data: columns(kept.value) });
  return kept;
}

export async function setToolRetired(tx: TenantTx, id: string, retired: boolean): Promise<boolean> {
  const retiredAt = retired ? new Date() : null;
  return (await tx.tool.updateMany({ where: { id }, data: { retiredAt } })).count === 1;
}

/** Nobody, or someone who works in this company; another company's person looks like nobody known. */
export async function isHolder(tx: TenantTx, personId: string | null): Promise<boolean> {
  return personId === null || (await tx.member.count({ where: { personId, active: true } })) === 1;
}

function withDates<T extends Tool>(tool: T) {
  return {
    ...tool,
    kind: tool.kind as ToolKind,
    calibratedOn: fromColumn(tool.calibratedOn),
    calibrationDueOn: fromColumn(tool.calibrationDueOn),
    madeOn: fromColumn(tool.madeOn),
    oilChangedOn: fromColumn(tool.oilChangedAt),
    checkDueOn: fromColumn(tool.checkDueOn),
    doubtedOn: fromColumn(tool.doubtedOn),
  };
}

function columns({ calibratedOn, calibrationDueOn, madeOn, oilChangedOn, checkDueOn, ...plain }: ToolFields) {
  return {
    ...plain,
    calibratedOn: toColumn(calibratedOn),
    calibrationDueOn: toColumn(calibrationDueOn),
    madeOn: toColumn(madeOn),
    oilChangedAt: toColumn(oilChangedOn),
    checkDueOn: toColumn(checkDueOn),
  };
}
