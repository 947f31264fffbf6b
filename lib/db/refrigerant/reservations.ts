import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { PersonId } from "@/lib/ids";
import { type Objection, objectionsToDraw, objectionsToFill } from "@/lib/ledger";
import { err, ok, type Result } from "@/lib/result";
import { toColumn } from "../calendar-date";
import { recordOfficeEvent } from "../office-events";
import type { TenantTx } from "../tenant";
import { readCylinders } from "./cylinders-in-books";

export interface Wish {
  readonly cylinderId: string;
  /** Room to put recovered refrigerant in, or stock to take out. */
  readonly direction: "in" | "out";
  readonly refrigerant: string;
  readonly grams: number;
  readonly customerId: string | null;
  readonly purpose: string;
  readonly untilDay: string;
}

/**
 * Promises room in a cylinder or stock from it, or says everything that stands against it. The cylinder's row is held meanwhile, so that
 * promises made at once are counted one after the other and never pass its fill limit together.
 */
export async function reserve(
  tx: TenantTx,
  wish: Wish,
  by: PersonId,
  today: string,
): Promise<Result<string, { code: "not-found" } | { code: "refused"; objections: readonly Objection[] }>> {
  await tx.$queryRaw`select 1 from cylinder where id = ${wish.cylinderId}::uuid for update`;
  await tx.cylinderReservation.updateMany({
    where: { cylinderId: wish.cylinderId, endedAt: null, untilDay: { lt: toColumn(today)! } },
    data: { endedAt: new Date() },
  });
  const [cylinder] = await readCylinders(tx, wish.cylinderId);
  if (!cylinder) return err({ code: "not-found" });
  const { refrigerant, grams, customerId } = wish;
  const plan = { tense: "intended", refrigerant, grams } as const;
  const objections =
    wish.direction === "in"
      ? objectionsToFill(cylinder, { ...plan, ownerId: customerId, day: wish.untilDay })
      : objectionsToDraw(cylinder, plan, customerId);
  if (objections.length > 0) return err({ code: "refused", objections });
  const id = uuidv7();
  const { untilDay, ...rest } = wish;
  await tx.cylinderReservation.create({
    data: { id, ...rest, grams: BigInt(grams), untilDay: toColumn(untilDay)!, madeBy: by },
  });
  const detail = { direction: wish.direction, refrigerant, grams, until: untilDay };
  await recordOfficeEvent(tx, by, { what: "reserved", subject: "cylinder", subjectId: wish.cylinderId, detail });
  return ok(id);
}

export async function endReservation(tx: TenantTx, id: string, by: PersonId): Promise<boolean> {
  const found = await tx.cylinderReservation.findFirst({ where: { id, endedAt: null } });
  if (!found) return false;
  await tx.cylinderReservation.updateMany({ where: { id, endedAt: null }, data: { endedAt: new Date() } });
  await recordOfficeEvent(tx, by, { what: "released", subject: "cylinder", subjectId: found.cylinderId });
  return true;
}

export interface ReservationRow {
  readonly id: string;
  readonly label: string;
  readonly direction: "in" | "out";
  readonly refrigerant: string;
  readonly grams: number;
  readonly purpose: string;
  readonly untilDay: string;
  readonly customer: string | null;
  readonly person: string;
}

/** Promises that stand, the first to end first, with whom they are for and who made them. */
export function listReservations(tx: TenantTx): Promise<ReservationRow[]> {
  return tx.$queryRaw<ReservationRow[]>`
    select r.id, c.label, r.direction, r.refrigerant, r.grams::float8 as grams, r.purpose, r.until_day::text as "untilDay",
           k.name as customer, m.name as person
    from cylinder_reservation r
    join cylinder c on c.tenant_id = r.tenant_id and c.id = r.cylinder_id
    join member m on m.tenant_id = r.tenant_id and m.person_id = r.made_by
    left join customer k on k.tenant_id = r.tenant_id and k.id = r.customer_id
    where r.ended_at is null order by r.until_day, c.label limit 200`;
}
