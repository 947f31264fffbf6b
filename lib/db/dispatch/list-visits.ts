import "server-only";
import { findRefrigerant } from "@/lib/hvac";
import type { VisitRecord } from "@/lib/work/day/day-records";
import { placeOf } from "@/lib/work/day/planning-rules";
import type { TenantTx } from "../tenant";

interface CircuitRow {
  readonly kind: string;
  readonly refrigerantState: string;
  readonly actualRefrigerant: string | null;
  readonly factoryChargeKg: number | null;
  readonly applianceKind: string;
}

interface VisitRow
  extends Omit<VisitRecord, "label" | "window" | "at" | "circuits" | "parts" | "earlierPeople" | "people"> {
  readonly number: bigint;
  readonly customer: string;
  readonly windowFrom: Date | null;
  readonly windowTo: Date | null;
  readonly people: string[];
  readonly earlierPeople: string[];
  readonly latitude: number | null;
  readonly longitude: number | null;
  readonly circuits: CircuitRow[] | null;
  readonly parts: Record<string, number> | null;
}

/**
 * Visits that begin between two instants, and those promised for that time or for none yet that nobody has given a start. One
 * statement: by the typed client it was a dozen, each with six hundred keys, and most of what a full board's page cost.
 */
export async function listVisitsOf(tx: TenantTx, { from, to }: { from: Date; to: Date }): Promise<VisitRecord[]> {
  const rows = await tx.$queryRaw<VisitRow[]>`
    select v.id, v.version, v.state, v.window_from as "windowFrom", v.window_to as "windowTo",
           v.planned_start as "plannedStart", v.planned_minutes as "plannedMinutes",
           o.number, k.name as customer, c.urgency, c.taken_at as "calledAt",
           s.id as "siteId", s.latitude, s.longitude,
           coalesce(d.people_needed, 1) as "peopleNeeded", d.pinned_to as "pinnedTo",
           coalesce(d.is_start_pinned, false) as "isStartPinned", d.preferred_person as "preferredPerson",
           array(select p.person_id from visit_person p
                 where p.tenant_id = v.tenant_id and p.visit_id = v.id order by 1) as people,
           array(select p.person_id from visit other
                 join visit_person p on p.tenant_id = other.tenant_id and p.visit_id = other.id
                 where other.tenant_id = v.tenant_id and other.work_order_id = v.work_order_id and other.id <> v.id
                   and other.state in ('left-for-today', 'done')
                 order by other.id, 1) as "earlierPeople",
           (select jsonb_object_agg(t.part, t.quantity) from visit_part t
            where t.tenant_id = v.tenant_id and t.visit_id = v.id and t.quantity > 0) as parts,
           (select jsonb_agg(jsonb_build_object(
                     'kind', coalesce(j.summary ->> 'kind', 'unknown'), -- a job never refreshed has an empty summary
                     'refrigerantState', r.refrigerant_state, 'actualRefrigerant', r.actual_refrigerant,
                     'factoryChargeKg', r.factory_charge_kg, 'applianceKind', e.appliance_kind) order by j.id)
            from circuit_job j
            join circuit r on r.tenant_id = j.tenant_id and r.id = j.circuit_id
            join equipment e on e.tenant_id = r.tenant_id and e.id = r.equipment_id
            where j.tenant_id = v.tenant_id and j.work_order_id = v.work_order_id and j.state <> 'closed') as circuits
    from visit v
    join work_order o on o.tenant_id = v.tenant_id and o.id = v.work_order_id
    join service_call c on c.tenant_id = o.tenant_id and c.id = o.service_call_id
    join customer k on k.tenant_id = c.tenant_id and k.id = c.customer_id
    join site s on s.tenant_id = c.tenant_id and s.id = c.site_id
    left join visit_demand d on d.tenant_id = v.tenant_id and d.visit_id = v.id
    where (v.state <> 'cancelled' and v.planned_start >= ${from} and v.planned_start < ${to})
       or (v.state = 'planned' and v.planned_start is null and v.window_from < ${to} and v.window_to > ${from})
       or (v.state = 'planned' and v.planned_start is null and v.window_from is null)
    order by v.planned_start, v.window_from, v.id`;
  return rows.map(({ number, customer, windowFrom, windowTo, latitude, longitude, circuits, parts, ...visit }) => ({
    ...visit,
    label: `Work order ${number}, ${customer}`,
    window: windowFrom && windowTo && { from: windowFrom, to: windowTo },
    at: placeOf(latitude, longitude),
    circuits: (circuits ?? []).map((circuit) => ({ ...circuit, safetyClass: safetyClassOf(circuit) })),
    parts: parts ?? {},
  }));
}

function safetyClassOf(circuit: { refrigerantState: string; actualRefrigerant: string | null }) {
  const stated = circuit.refrigerantState === "identified" || circuit.refrigerantState === "retrofitted";
  return (
    (stated && circuit.actualRefrigerant !== null && findRefrigerant(circuit.actualRefrigerant)?.safetyClass) || null
  );
}
