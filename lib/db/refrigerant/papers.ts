import "server-only";
import { type PaperKind, paperWords } from "@/lib/work/paper-query";
import type { TenantTx } from "../tenant";

export interface PaperRow {
  id: string;
  kind: PaperKind;
  on_day: string;
  party: string;
  number: string;
  note: string;
  cylinder: string | null;
  circuit_id: string | null;
  appliance: string | null;
  customer: string | null;
  site: string | null;
  refrigerant: string | null;
  grams: number | null;
  person: string;
}

/**
 * Purchases, shipments, what came back and appliances given up, the newest first. A disposal carries what was recovered from its circuit
 * since the disposal before it, since that is what went with it.
 */
export function listPapers(
  tx: TenantTx,
  of: { kind: PaperKind | null; from: string; to: string },
  page: { take: number; skip: number },
) {
  return tx.$queryRaw<PaperRow[]>`
    select d.id, d.kind, d.on_day::text, d.party, d.number, d.note, y.label as cylinder, d.circuit_id,
           e.name || ', ' || c.name as appliance, k.name as customer, s.name as site, m.name as person,
           coalesce(p.refrigerant, r.refrigerant) as refrigerant, coalesce(p.grams, r.grams)::float8 as grams
    from (select * from refrigerant_document
          where kind <> 'handover' and kind = any (${of.kind === null ? Object.keys(paperWords) : [of.kind]}::text[])
            and on_day between ${of.from}::date and ${of.to}::date
          order by on_day desc, id limit ${page.take} offset ${page.skip}) d
    join member m on m.tenant_id = d.tenant_id and m.person_id = d.made_by
    left join cylinder y on y.tenant_id = d.tenant_id and y.id = d.cylinder_id
    left join circuit c on c.tenant_id = d.tenant_id and c.id = d.circuit_id
    left join equipment e on e.tenant_id = c.tenant_id and e.id = c.equipment_id
    left join site s on s.tenant_id = e.tenant_id and s.id = e.site_id
    left join customer k on k.tenant_id = s.tenant_id and k.id = s.customer_id
    left join posting p on p.tenant_id = d.tenant_id and p.source_key = 'document:' || d.id
    left join lateral (
      select min(q.refrigerant) as refrigerant, sum(case when q.reverses is null then q.grams else -q.grams end) as grams from posting q
      where d.kind = 'disposal' and q.tenant_id = d.tenant_id and q.cause = 'recovery'
        and d.circuit_id = case when q.reverses is null then q.from_circuit_id else q.to_circuit_id end and q.happened_on <= d.on_day
        and q.happened_on > coalesce((select max(b.on_day) from refrigerant_document b
          where b.tenant_id = d.tenant_id and b.circuit_id = d.circuit_id and b.kind = 'disposal' and b.on_day < d.on_day), '-infinity')) r on true
    order by d.on_day desc, d.id`;
}
