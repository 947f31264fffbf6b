import "server-only";
import type { CylinderToCheck } from "@/lib/ledger";
import { fromColumn } from "../calendar-date";
import type { TenantTx } from "../tenant";

/** Cylinders in use as the books and the register hold them, with who has each and what is promised of it. */
export async function readCylinders(tx: TenantTx, only?: string) {
  const cylinders = await tx.cylinder.findMany({
    where: only === undefined ? { retiredAt: null } : { id: only },
    orderBy: { label: "asc" },
    include: { holder: { select: { name: true } } },
  });
  const ids = cylinders.map(({ id }) => id);
  const balances = await tx.refrigerantBalance.findMany({ where: { placeKind: "cylinder", placeId: { in: ids } } });
  const promised = await tx.cylinderReservation.findMany({ where: { cylinderId: { in: ids }, endedAt: null } });
  const scales = await tx.$queryRaw<{ id: string; grams: string }[]>`
    select distinct on (id) id, grams::text from (
      select to_cylinder_id as id, scale_grams as grams, posted_at from posting where to_cylinder_id = any (${ids}::uuid[])
      union all
      select from_cylinder_id, scale_grams, posted_at from posting where from_cylinder_id = any (${ids}::uuid[])) p
    order by id, posted_at desc, grams desc nulls last`;
  const shown = new Map(scales.map(({ id, grams }) => [id, grams === null ? null : Number(grams)]));
  return cylinders.map((row) => {
    const held = balances.filter(({ placeId }) => placeId === row.id);
    const sum = (direction: string) =>
      promised
        .filter((each) => each.cylinderId === row.id && each.direction === direction)
        .reduce((grams, each) => grams + Number(each.grams), 0);
    return {
      id: row.id,
      label: row.label,
      contents: row.contents as CylinderToCheck["contents"],
      refrigerant: row.refrigerant,
      waterCapacityKg: row.waterCapacityKg,
      tareKg: row.tareKg,
      requalifyBy: fromColumn(row.requalifyBy),
      refillable: row.refillable,
      forFlammables: row.forFlammables,
      grams: Object.fromEntries(held.map(({ refrigerant, grams }) => [refrigerant, Number(grams)])),
      owners: [...new Set(held.flatMap(({ owners }) => owners))],
      reservedIn: sum("in"),
      reservedOut: sum("out"),
      lastScaleGrams: shown.get(row.id) ?? null,
      holder: row.holder?.name ?? null,
      heldBy: row.heldBy,
    };
  });
}
export type CylinderRow = Awaited<ReturnType<typeof readCylinders>>[number];
