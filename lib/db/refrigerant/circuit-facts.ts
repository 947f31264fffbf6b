import "server-only";
import type { PersonId } from "@/lib/ids";
import { err, ok, type Result } from "@/lib/result";
import { fromColumn, toColumn } from "../calendar-date";
import { recordOfficeEvent } from "../office-events";
import type { TenantTx } from "../tenant";

export const FULL_CHARGE_METHODS = ["maker", "calculated", "measured", "range"] as const;

/** What the leak rules ask about a circuit and the register does not hold. */
export interface CircuitDutyFacts {
  /** Null: the register's factory charge. */
  readonly fullChargeGrams: number | null;
  readonly fullChargeMethod: (typeof FULL_CHARGE_METHODS)[number];
  /** Null: the day it came into the books. */
  readonly installedOn: string | null;
  /** Residential or light commercial; null: judged by its use and charge. */
  readonly lightCommercial: boolean | null;
  readonly processShutdown: boolean;
  readonly detectionSystem: boolean;
  readonly hermeticLabelled: boolean;
}

const ASSUMED: CircuitDutyFacts = {
  fullChargeGrams: null,
  fullChargeMethod: "maker",
  installedOn: null,
  lightCommercial: null,
  processShutdown: false,
  detectionSystem: false,
  hermeticLabelled: false,
};

/** The circuit's own facts, or what is assumed until somebody gives them. */
export async function readCircuitFacts(tx: TenantTx, circuitId: string): Promise<CircuitDutyFacts> {
  const row = await tx.circuitDuty.findFirst({ where: { circuitId } });
  if (!row) return ASSUMED;
  const { fullChargeGrams, fullChargeMethod, installedOn, ...plain } = row;
  return {
    fullChargeGrams: fullChargeGrams === null ? null : Number(fullChargeGrams),
    fullChargeMethod: FULL_CHARGE_METHODS.find((method) => method === fullChargeMethod) ?? "maker",
    installedOn: fromColumn(installedOn),
    lightCommercial: plain.lightCommercial,
    processShutdown: plain.processShutdown,
    detectionSystem: plain.detectionSystem,
    hermeticLabelled: plain.hermeticLabelled,
  };
}

/** Writes a circuit's facts; what follows from them is computed again before it is shown. */
export async function setCircuitFacts(
  tx: TenantTx,
  circuitId: string,
  facts: CircuitDutyFacts,
  by: PersonId,
): Promise<Result<null, { code: "not-found" }>> {
  if ((await tx.circuit.count({ where: { id: circuitId } })) === 0) return err({ code: "not-found" });
  const { fullChargeGrams, installedOn, ...plain } = facts;
  const data = {
    ...plain,
    fullChargeGrams: fullChargeGrams === null ? null : BigInt(fullChargeGrams),
    installedOn: toColumn(installedOn),
  };
  const { count } = await tx.circuitDuty.updateMany({ where: { circuitId }, data });
  if (count === 0) await tx.circuitDuty.create({ data: { circuitId, ...data } });
  await recordOfficeEvent(tx, by, { what: "changed", subject: "circuit", subjectId: circuitId, detail: { ...facts } });
  return ok(null);
}
