import "server-only";
import type { CylinderToCheck } from "@/lib/ledger";
import { fromColumn } from "../calendar-date";
import type { TenantTx } from "../tenant";

/** One job posts at most so many lines of a cylinder at the same instant; the one with a weighing counts. */
const MOST_TOGETHER = 8;

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
    select i.id, last.grams::text from unnest(${ids}::uuid[]) as i(id)
    cross join lateral (
      select scale_grams as grams from (
        (select scale_grams, posted_at from posting where to_cylinder_id = i.id order by posted_at desc limit ${MOST_TOGETHER})
        union all
        (select scale_grams, posted_at from posting where from_cylinder_id = i.id order by posted_at desc limit ${MOST_TOGETHER})) p
      order by posted_at desc, scale_grams desc nulls last limit 1) last`;
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
