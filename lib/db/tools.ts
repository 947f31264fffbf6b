import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { ToolFields, ToolKind } from "@/lib/registry/tool";
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

export async function updateTool(tx: TenantTx, id: string, fields: ToolFields): Promise<Result<null, HolderRefusal>> {
  if (!(await isHolder(tx, fields.heldBy))) return err({ code: "no-such-holder" });
  const { count } = await tx.tool.updateMany({ where: { id }, data: columns(fields) });
  return count === 1 ? ok(null) : err({ code: "not-found" });
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
