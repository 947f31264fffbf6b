import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { CircuitFields } from "@/lib/registry/circuit";
import type { TenantTx } from "./tenant";

/** A circuit with its unit and site; null also for another company's. */
export function findCircuit(tx: TenantTx, id: string) {
  return tx.circuit.findFirst({
    where: { id },
    include: {
      equipment: {
        select: {
          id: true,
          name: true,
          applianceKind: true,
          site: { select: { id: true, name: true, timeZone: true, customer: { select: { id: true, name: true } } } },
        },
      },
    },
  });
}

/** The circuits of one unit that are in use. */
export function listCircuits(tx: TenantTx, equipmentId: string) {
  return tx.circuit.findMany({ where: { equipmentId, archivedAt: null }, orderBy: { name: "asc" } });
}

/** The new circuit's id, or null when there is no such unit in this company. */
export async function createCircuit(tx: TenantTx, equipmentId: string, fields: CircuitFields): Promise<string | null> {
  if (!(await tx.equipment.findFirst({ where: { id: equipmentId }, select: { id: true } }))) return null;
  const id = uuidv7();
  await tx.circuit.create({ data: { id, equipmentId, ...fields } });
  return id;
}

export async function updateCircuit(tx: TenantTx, id: string, fields: CircuitFields): Promise<boolean> {
  return (await tx.circuit.updateMany({ where: { id }, data: fields })).count === 1;
}

export async function setCircuitArchived(tx: TenantTx, id: string, archived: boolean): Promise<boolean> {
  const archivedAt = archived ? new Date() : null;
  return (await tx.circuit.updateMany({ where: { id }, data: { archivedAt } })).count === 1;
}
