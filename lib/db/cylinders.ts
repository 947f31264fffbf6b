import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { CylinderContents, CylinderFields } from "@/lib/registry/cylinder";
import { err, ok, type Result } from "@/lib/result";
import { fromColumn, toColumn } from "./calendar-date";
import type { Cylinder } from "./generated/client";
import type { TenantTx } from "./tenant";
import { type HolderRefusal, isHolder } from "./tools";

export type CylinderRefusal = HolderRefusal | { code: "label-taken" };

const holder = { holder: { select: { personId: true, name: true } } } as const;

export async function listCylinders(tx: TenantTx, asked: { retired: boolean }) {
  const cylinders = await tx.cylinder.findMany({
    where: { retiredAt: asked.retired ? { not: null } : null },
    orderBy: { label: "asc" },
    include: holder,
  });
  return cylinders.map(withDates);
}

export async function findCylinder(tx: TenantTx, id: string) {
  const cylinder = await tx.cylinder.findFirst({ where: { id }, include: holder });
  return cylinder && withDates(cylinder);
}

export async function createCylinder(tx: TenantTx, fields: CylinderFields): Promise<Result<string, CylinderRefusal>> {
  if (!(await isHolder(tx, fields.heldBy))) return err({ code: "no-such-holder" });
  const id = uuidv7();
  const { count } = await tx.cylinder.createMany({ data: [{ id, ...columns(fields) }], skipDuplicates: true });
  return count === 1 ? ok(id) : err({ code: "label-taken" });
}

export async function updateCylinder(
  tx: TenantTx,
  id: string,
  fields: CylinderFields,
): Promise<Result<null, CylinderRefusal>> {
  if (!(await isHolder(tx, fields.heldBy))) return err({ code: "no-such-holder" });
  if ((await tx.cylinder.count({ where: { label: fields.label, id: { not: id } } })) > 0)
    return err({ code: "label-taken" });
  const { count } = await tx.cylinder.updateMany({ where: { id }, data: columns(fields) });
  return count === 1 ? ok(null) : err({ code: "not-found" });
}

export async function setCylinderRetired(tx: TenantTx, id: string, retired: boolean): Promise<boolean> {
  const retiredAt = retired ? new Date() : null;
  return (await tx.cylinder.updateMany({ where: { id }, data: { retiredAt } })).count === 1;
}

function withDates<T extends Cylinder>(cylinder: T) {
  return {
    ...cylinder,
    contents: cylinder.contents as CylinderContents,
    requalifyBy: fromColumn(cylinder.requalifyBy),
  };
}

function columns({ requalifyBy, ...plain }: CylinderFields) {
  return { ...plain, requalifyBy: toColumn(requalifyBy) };
}
