import "server-only";
import { type BookException, findExceptions, type PlaceKind, SCALE_TOLERANCE_GRAMS } from "@/lib/ledger";
import { toColumn } from "../calendar-date";
import { Prisma } from "../generated/client";
import type { TenantTx } from "../tenant";
import { readCylinders } from "./cylinders-in-books";

export interface Flow {
  readonly from: PlaceKind;
  readonly to: PlaceKind;
  readonly refrigerant: string;
  readonly grams: number;
}

/** What flowed between kinds of places in whole months, by refrigerant; what was reversed is out again. */
export async function readFlows(tx: TenantTx, fromMonth: string, toMonth: string): Promise<Flow[]> {
  const rows = await tx.refrigerantMonth.groupBy({
    by: ["fromKind", "toKind", "refrigerant"],
    where: { month: { gte: toColumn(fromMonth)!, lte: toColumn(toMonth)! } },
    _sum: { grams: true },
  });
  return rows
    .map((row) => ({
      from: row.fromKind as PlaceKind,
      to: row.toKind as PlaceKind,
      refrigerant: row.refrigerant,
      grams: Number(row._sum.grams ?? 0),
    }))
    .filter(({ grams }) => grams !== 0)
    .sort((a, b) => b.grams - a.grams);
}

/** What each kind of place holds, by refrigerant. */
export async function readHoldings(tx: TenantTx) {
  const rows = await tx.refrigerantBalance.groupBy({
    by: ["placeKind", "refrigerant"],
    _sum: { grams: true },
    orderBy: [{ refrigerant: "asc" }, { placeKind: "asc" }],
  });
  return rows
    .map((row) => ({
      kind: row.placeKind as PlaceKind,
      refrigerant: row.refrigerant,
      grams: Number(row._sum.grams ?? 0),
    }))
    .filter(({ grams }) => grams !== 0);
}

/** Everything in the books that cannot be so, the largest first; circuits at most so many. */
export async function readExceptions(tx: TenantTx, most = 200): Promise<BookException[]> {
  const unnamed = await tx.refrigerantBalance.findMany({ where: { placeKind: "unnamed" } });
  const circuits = await tx.$queryRaw<
    { id: string; name: string; refrigerant: string; grams: string; full: string | null }[]
  >`
    select b.place_id as id, e.name || ', ' || c.name as name, b.refrigerant, b.grams::text,
           coalesce(d.full_charge_grams, round(c.factory_charge_kg * 1000))::text as full
    from refrigerant_balance b join circuit c on c.tenant_id = b.tenant_id and c.id = b.place_id
    join equipment e on e.tenant_id = c.tenant_id and e.id = c.equipment_id
    left join circuit_duty d on d.tenant_id = c.tenant_id and d.circuit_id = c.id
    where b.place_kind = 'circuit' and (b.grams < 0
      or b.grams > coalesce(d.full_charge_grams, round(c.factory_charge_kg * 1000)) + ${SCALE_TOLERANCE_GRAMS})
      and not exists (select from circuit_job j where j.tenant_id = b.tenant_id and j.circuit_id = c.id and j.state <> 'closed')
    order by abs(b.grams) desc limit ${most}`;
  return findExceptions({
    cylinders: await readCylinders(tx),
    circuits: circuits.map(({ id, name, refrigerant, grams, full }) => ({
      id,
      name,
      fullChargeGrams: full === null ? null : Number(full),
      grams: { [refrigerant]: Number(grams) },
    })),
    unnamed: Object.fromEntries(unnamed.map(({ refrigerant, grams }) => [refrigerant, Number(grams)])),
  });
}

export interface LedgerLine {
  id: string;
  happened_on: string;
  posted_at: Date;
  refrigerant: string;
  grams: number;
  cause: string;
  from_name: string;
  to_name: string;
  reverses: string | null;
  reversed: boolean;
  job_number: string | null;
  job_id: string | null;
  document: string | null;
  person: string | null;
  entry_id: string | null;
}

const PLACE_COLUMNS = ["from_cylinder_id", "to_cylinder_id", "from_circuit_id", "to_circuit_id"].map((column) =>
  Prisma.raw(column),
);

/** Postings, the newest first: all, or those that touch one cylinder or circuit, within days. */
export function listPostings(
  tx: TenantTx,
  of: { placeId: string | null; from: string; to: string },
  page: { take: number; skip: number },
) {
  const { placeId, from, to } = of;
  const within = Prisma.sql`happened_on between ${from}::date and ${to}::date`;
  const newest = Prisma.sql`order by happened_on desc, posted_at desc, id limit ${page.take + page.skip}`;
  // Each of the four sides has its own index; asked for together, the books would be read from the end until enough are found.
  const ofPlace =
    placeId === null
      ? Prisma.sql`select * from posting where ${within} ${newest}`
      : Prisma.join(
          PLACE_COLUMNS.map(
            (column) => Prisma.sql`(select * from posting where ${column} = ${placeId}::uuid and ${within} ${newest})`,
          ),
          " union all ",
        );
  return tx.$queryRaw<LedgerLine[]>`
    select p.id, p.happened_on::text, p.posted_at, p.refrigerant, p.grams::float8 as grams, p.cause, p.reverses,
           coalesce(fc.label, fe.name || ', ' || fk.name, p.from_kind) as from_name,
           coalesce(tc.label, te.name || ', ' || tk.name, p.to_kind) as to_name,
           exists (select from posting r where r.tenant_id = p.tenant_id and r.reverses = p.id) as reversed,
           j.number::text as job_number, p.job_id, nullif(concat_ws(' ', d.party, d.number), '') as document, m.name as person, p.entry_id
    from (select * from (${ofPlace}) of_place order by happened_on desc, posted_at desc, id limit ${page.take} offset ${page.skip}) p
    left join cylinder fc on fc.tenant_id = p.tenant_id and fc.id = p.from_cylinder_id
    left join cylinder tc on tc.tenant_id = p.tenant_id and tc.id = p.to_cylinder_id
    left join circuit fk on fk.tenant_id = p.tenant_id and fk.id = p.from_circuit_id
    left join equipment fe on fe.tenant_id = fk.tenant_id and fe.id = fk.equipment_id
    left join circuit tk on tk.tenant_id = p.tenant_id and tk.id = p.to_circuit_id
    left join equipment te on te.tenant_id = tk.tenant_id and te.id = tk.equipment_id
    left join circuit_job j on j.tenant_id = p.tenant_id and j.id = p.job_id
    left join refrigerant_document d on d.tenant_id = p.tenant_id and d.id = p.document_id
    left join member m on m.tenant_id = p.tenant_id and m.person_id = p.person_id
    order by p.happened_on desc, p.posted_at desc, p.id`;
}
