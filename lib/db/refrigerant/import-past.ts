import "server-only";
import { createHash } from "node:crypto";
import { v7 as uuidv7 } from "uuid";
import type { PersonId } from "@/lib/ids";
import { circuit } from "@/lib/ledger";
import type { PastError, PastLine } from "@/lib/registry/import/past-additions";
import { toColumn } from "../calendar-date";
import type { TenantTx } from "../tenant";
import { insertPostings, lockBooks, type NewPosting } from "./posting-rows";

export interface PlannedLine {
  readonly line: PastLine;
  readonly circuitId: string;
  readonly refrigerant: string;
  readonly found: string;
}

/** Finds each line's circuit: by serial, else by customer and unit; a unit with several circuits has to be settled by hand. */
export async function planPastList(
  tx: TenantTx,
  lines: readonly PastLine[],
): Promise<{ planned: PlannedLine[]; errors: PastError[] }> {
  const rows = await tx.$queryRaw<
    { circuit_id: string; refrigerant: string; serial: string; unit: string; customer: string }[]
  >`
    select c.id as circuit_id, circuit_refrigerant(c.refrigerant_state, c.actual_refrigerant, c.nameplate_refrigerant) as refrigerant,
           lower(e.serial) as serial, e.name as unit, k.name as customer
    from circuit c join equipment e on e.tenant_id = c.tenant_id and e.id = c.equipment_id
    join site s on s.tenant_id = e.tenant_id and s.id = e.site_id join customer k on k.tenant_id = s.tenant_id and k.id = s.customer_id
    where c.archived_at is null and e.archived_at is null`;
  const by = new Map<string, typeof rows>();
  const put = (key: string, row: (typeof rows)[number]) => by.set(key, [...(by.get(key) ?? []), row]);
  for (const row of rows) {
    if (row.serial) put(`serial ${row.serial}`, row);
    put(`unit ${row.customer.toLowerCase()} ${row.unit.toLowerCase()}`, row);
  }
  const planned: PlannedLine[] = [];
  const errors: PastError[] = [];
  for (const line of lines) {
    const key = line.serial
      ? `serial ${line.serial.toLowerCase()}`
      : `unit ${line.customer.toLowerCase()} ${line.unit.toLowerCase()}`;
    const found = by.get(key) ?? [];
    const [only] = found;
    const column = line.serial ? "serial" : "unit";
    if (only === undefined) {
      const message = "No such unit in the register. Import the units first.";
      errors.push({ lineNumber: line.lineNumber, column, message });
    } else if (found.length > 1) {
      const message = "Several circuits fit. Record these additions on the circuit's own page.";
      errors.push({ lineNumber: line.lineNumber, column, message });
    } else
      planned.push({
        line,
        circuitId: only.circuit_id,
        refrigerant: only.refrigerant,
        found: `${only.unit}, ${only.customer}`,
      });
  }
  return { planned, errors };
}

/** Sets full charges and posts past additions with the loss they made up for; a line that is in the books already is left alone. */
export async function carryOutPastList(
  tx: TenantTx,
  planned: readonly PlannedLine[],
  by: PersonId,
  today: string,
): Promise<{ charges: number; additions: number }> {
  await lockBooks(tx);
  let charges = 0;
  for (const { circuitId, line } of planned) {
    const { fullChargeGrams, installedOn } = line;
    if (fullChargeGrams === null && installedOn === null) continue;
    charges += 1;
    await tx.$executeRaw`
      insert into circuit_duty (circuit_id, full_charge_grams, installed_on) values (${circuitId}::uuid, ${fullChargeGrams}, ${installedOn}::date)
      on conflict (tenant_id, circuit_id) do update
        set full_charge_grams = coalesce(excluded.full_charge_grams, circuit_duty.full_charge_grams),
            installed_on = coalesce(excluded.installed_on, circuit_duty.installed_on)`;
  }
  const added = planned.filter(({ line }) => line.addedOn !== null && line.addedGrams !== null);
  if (added.length === 0) return { charges, additions: 0 };
  const documentId = uuidv7();
  await tx.refrigerantDocument.create({
    data: { id: documentId, kind: "import", onDay: toColumn(today)!, madeBy: by, note: "Past additions" },
  });
  const posted = await insertPostings(
    tx,
    added.flatMap(({ line, circuitId, refrigerant }): NewPosting[] => {
      const inCircuit = circuit(circuitId);
      const key = `past:${createHash("sha256").update(`${circuitId} ${line.addedOn} ${line.addedGrams}`).digest("hex")}`;
      const shared = { refrigerant, grams: line.addedGrams!, ownerId: null, happenedOn: line.addedOn!, personId: by };
      return [
        { ...shared, from: { kind: "before" }, to: inCircuit, cause: "past-addition", sourceKey: key },
        { ...shared, from: inCircuit, to: { kind: "loss" }, cause: "release", sourceKey: `${key}:lost` },
      ];
    }),
  );
  return { charges, additions: posted.length / 2 };
}
