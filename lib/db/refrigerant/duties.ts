import "server-only";
import {
  type CircuitUnderLaw,
  DUTY_WORDS,
  type Duty,
  type DutyCode,
  type LawEvent,
  type LeakRateMethod,
  type Standing,
  standingUnderEu,
  standingUnderUs,
  withoutSeasonalReturns,
} from "@/lib/duties";
import type { PersonId } from "@/lib/ids";
import { err, ok, type Result } from "@/lib/result";
import { leakUseOf } from "@/lib/work/circuit-facts";
import { dayAt } from "@/lib/work/site-time";
import { toColumn } from "../calendar-date";
import { takeCall } from "../calls";
import { Prisma } from "../generated/client";
import { recordOfficeEvent } from "../office-events";
import type { TenantTx } from "../tenant";

export interface CircuitStanding {
  readonly circuitId: string;
  readonly circuit: CircuitUnderLaw;
  readonly additions: readonly { readonly on: string; readonly grams: number }[];
  readonly events: readonly LawEvent[];
  readonly standing: Standing;
}

const AT_ONCE = 500;

/** Computes the duties of circuits about which something changed, at most so many; how many are still to do. */
export async function refreshDuties(tx: TenantTx, limit = AT_ONCE): Promise<number> {
  const stale = await tx.$queryRaw<{ circuit_id: string }[]>`
    select circuit_id from duty_stale order by circuit_id limit ${limit} for update skip locked`;
  const ids = stale.map(({ circuit_id }) => circuit_id);
  if (ids.length === 0) return 0;
  const standings = await readStandings(tx, ids);
  const rows = standings.flatMap(({ circuitId, standing }) =>
    standing.duties.map((duty) => ({ circuit_id: circuitId, ...duty })),
  );
  const calls = await tx.$queryRaw<{ circuit_id: string; code: string; since: string; call_id: string }[]>`
    delete from duty where circuit_id = any (${ids}::uuid[]) returning circuit_id, code, since::text, call_id`;
  const made = new Map(calls.map((each) => [`${each.circuit_id} ${each.code} ${each.since}`, each.call_id]));
  const kept = rows.map((row) => ({ ...row, call_id: made.get(`${row.circuit_id} ${row.code} ${row.since}`) ?? null }));
  await tx.$executeRaw`
    insert into duty (circuit_id, code, since, words, from_day, due_by, done_on, whose, source, mark, call_id)
    select circuit_id, code, since, text, "from", "dueBy", "doneOn", whose, source, mark, call_id
    from jsonb_to_recordset(${JSON.stringify(kept)}::jsonb)
      as r(circuit_id uuid, code text, since date, text text, "from" date, "dueBy" date, "doneOn" date, whose text, source text, mark text, call_id uuid)
    on conflict do nothing`;
  await tx.$executeRaw`delete from duty_stale where circuit_id = any (${ids}::uuid[])`;
  return tx.dutyStale.count();
}

interface FactRow {
  id: string;
  refrigerant: string;
  full_charge_grams: string | null;
  appliance_kind: string;
  light_commercial: boolean | null;
  process_shutdown: boolean;
  detection_system: boolean;
  hermetic_labelled: boolean;
  installed_on: string;
}

/** Where each of these circuits stands under the company's rule set, computed from its additions and events. */
export async function readStandings(tx: TenantTx, circuitIds: readonly string[]): Promise<CircuitStanding[]> {
  const ids = [...circuitIds];
  const company = await tx.company.findFirstOrThrow({ select: { ruleSet: true, timeZone: true } });
  const method = await leakRateMethod(tx);
  const facts = await tx.$queryRaw<FactRow[]>`
    select c.id, circuit_refrigerant(c.refrigerant_state, c.actual_refrigerant, c.nameplate_refrigerant) as refrigerant,
           coalesce(d.full_charge_grams, round(c.factory_charge_kg * 1000))::text as full_charge_grams, e.appliance_kind,
           d.light_commercial, coalesce(d.process_shutdown, false) as process_shutdown, coalesce(d.detection_system, false) as detection_system,
           coalesce(d.hermetic_labelled, false) as hermetic_labelled,
           coalesce(d.installed_on, (select min(p.happened_on) from posting p where p.tenant_id = c.tenant_id and p.to_circuit_id = c.id), current_date)::text as installed_on
    from circuit c join equipment e on e.tenant_id = c.tenant_id and e.id = c.equipment_id
    left join circuit_duty d on d.tenant_id = c.tenant_id and d.circuit_id = c.id
    where c.id = any (${ids}::uuid[]) and c.archived_at is null and e.archived_at is null`;
  const services = await tx.$queryRaw<{ circuit_id: string; on: string; grams: string }[]>`
    select circuit_id, max(happened_on)::text as on, sum(grams)::text as grams from (
      select to_circuit_id as circuit_id, coalesce(job_id, document_id, id) as service, happened_on, grams, cause, job_id
        from posting where to_circuit_id = any (${ids}::uuid[])
      union all
      select from_circuit_id, coalesce(job_id, document_id, id), happened_on, -grams, cause, job_id
        from posting where from_circuit_id = any (${ids}::uuid[])) p
    where cause in ('charge', 'recovery', 'past-addition')
      and not exists (select from circuit_job j where j.id = p.job_id and j.summary ->> 'kind' = 'new_install_precharged')
    group by circuit_id, service having sum(grams) <> 0`;
  const events = await tx.$queryRaw<{ circuit_id: string; kind: string; on: string; passed: boolean | null }[]>`
    select circuit_id, kind, happened_on::text as on, passed from law_event e
    where circuit_id = any (${ids}::uuid[]) and kind not in ('withdrawn', 'records-given')
      and not exists (select from law_event s where s.tenant_id = e.tenant_id and s.supersedes = e.id)
    order by happened_on, recorded_at`;
  const today = dayAt(new Date(), company.timeZone);
  const served = grouped(services);
  const seen = grouped(events);
  return facts.map((row) => {
    const circuit = circuitOf(row);
    const net = (served.get(row.id) ?? []).map(({ on, grams }) => ({ on, grams: Number(grams) }));
    const added = net.filter(({ grams }) => grams > 0);
    const removed = net.filter(({ grams }) => grams < 0).map(({ on, grams }) => ({ on, grams: -grams }));
    const ofEvents = (seen.get(row.id) ?? []) as unknown as LawEvent[];
    const ofCircuit = withoutSeasonalReturns(added, removed, ofEvents);
    const standing =
      company.ruleSet === "eu"
        ? standingUnderEu(circuit, ofCircuit, ofEvents, method)
        : standingUnderUs(circuit, ofCircuit, ofEvents, method, today);
    return { circuitId: row.id, circuit, additions: ofCircuit, events: ofEvents, standing };
  });
}

function circuitOf(row: FactRow): CircuitUnderLaw {
  const fullChargeKg = row.full_charge_grams === null ? null : Number(row.full_charge_grams) / 1000;
  const use = leakUseOf(row.appliance_kind);
  return {
    refrigerant: row.refrigerant,
    fullChargeKg,
    use,
    residentialOrLightCommercial:
      row.light_commercial ??
      (use === "comfort-cooling" && fullChargeKg !== null && fullChargeKg < LIGHT_COMMERCIAL_KG),
    processShutdownNeeded: row.process_shutdown,
    detectionSystem: row.detection_system,
    hermeticLabelled: row.hermetic_labelled,
    installedOn: row.installed_on,
  };
}

/** Comfort cooling under 50 lb is taken as residential or light commercial unless the circuit's own facts say otherwise (our choice). */
const LIGHT_COMMERCIAL_KG = 22.68;

function grouped<T extends { circuit_id: string }>(rows: readonly T[]): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const row of rows) {
    const group = groups.get(row.circuit_id);
    if (group) group.push(row);
    else groups.set(row.circuit_id, [row]);
  }
  return groups;
}

export async function leakRateMethod(tx: TenantTx): Promise<LeakRateMethod> {
  const rule = await tx.refrigerantRule.findFirst({ select: { leakRateMethod: true } });
  return (rule?.leakRateMethod ?? "annualizing") as LeakRateMethod;
}

/** One method for the whole company; changed, every circuit is computed again. */
export async function setLeakRateMethod(tx: TenantTx, method: LeakRateMethod): Promise<void> {
  await tx.$executeRaw`insert into refrigerant_rule (leak_rate_method) values (${method})
    on conflict (tenant_id) do update set leak_rate_method = excluded.leak_rate_method`;
  await tx.$executeRaw`insert into duty_stale (circuit_id) select id from circuit order by id on conflict do nothing`;
}

export interface DutyFilter {
  readonly show: "open" | "late" | "done";
  readonly code: string | null;
  readonly circuitId?: string;
}
export interface DutyRow {
  circuit_id: string;
  code: Duty["code"];
  since: string;
  words: string;
  from_day: string | null;
  due_by: string | null;
  done_on: string | null;
  whose: Duty["whose"];
  source: string;
  mark: Duty["mark"];
  call_id: string | null;
  unit: string;
  circuit: string;
  site: string;
  time_zone: string;
  customer: string;
}

/** Duties with where they are, the earliest last day first, done ones the latest first; "late" by each site's own day. */
export function listDuties(tx: TenantTx, filter: DutyFilter, page: { take: number; skip: number }) {
  const { show, code, circuitId = null } = filter;
  return tx.$queryRaw<DutyRow[]>`
    select d.circuit_id, d.code, d.since::text, d.words, d.from_day::text, d.due_by::text, d.done_on::text, d.whose, d.source, d.mark, d.call_id,
           e.name as unit, c.name as circuit, s.name as site, s.time_zone, k.name as customer
    from duty d join circuit c on c.tenant_id = d.tenant_id and c.id = d.circuit_id
    join equipment e on e.tenant_id = c.tenant_id and e.id = c.equipment_id
    join site s on s.tenant_id = e.tenant_id and s.id = e.site_id
    join customer k on k.tenant_id = s.tenant_id and k.id = s.customer_id
    where ${show === "done" ? Prisma.sql`d.done_on is not null` : Prisma.sql`d.done_on is null`}
      and (${show} <> 'late' or d.due_by < (now() at time zone s.time_zone)::date)
      and (${code}::text is null or d.code = ${code}) and (${circuitId}::uuid is null or d.circuit_id = ${circuitId}::uuid)
    order by ${show === "done" ? Prisma.sql`d.done_on desc` : Prisma.sql`d.due_by`}, d.circuit_id, d.code limit ${page.take} offset ${page.skip}`;
}

const REMINDED_DAYS = [30, 7, 1, 0, -1];

export interface DutyToRemind {
  readonly code: DutyCode;
  readonly due_by: string;
  /** By the site's own calendar; -1 the day after the last. */
  readonly days_left: number;
  readonly unit: string;
  readonly circuit: string;
  readonly site: string;
  readonly customer: string;
}

/** Open duties of which somebody is reminded this day, the earliest first. */
export function listDutiesToRemind(tx: TenantTx, now: Date): Promise<DutyToRemind[]> {
  return tx.$queryRaw<DutyToRemind[]>`
    select d.code, d.due_by::text, l.days_left, e.name as unit, c.name as circuit, s.name as site, k.name as customer
    from duty d join circuit c on c.tenant_id = d.tenant_id and c.id = d.circuit_id
    join equipment e on e.tenant_id = c.tenant_id and e.id = c.equipment_id
    join site s on s.tenant_id = e.tenant_id and s.id = e.site_id
    join customer k on k.tenant_id = s.tenant_id and k.id = s.customer_id
    cross join lateral (select d.due_by - (${now.toISOString()}::timestamptz at time zone s.time_zone)::date as days_left) l
    where d.done_on is null and d.due_by between ${now.toISOString()}::date - 3 and ${now.toISOString()}::date + 32
      and l.days_left = any (${REMINDED_DAYS}::int[])
    order by d.due_by, d.circuit_id, d.code limit 200`;
}

const callWords = ({ code, words, due_by, source }: DutyRow) =>
  `${DUTY_WORDS[code] ?? code}${due_by ? `, by ${due_by}` : ""}. ${words} (${source})`.slice(0, 2000);

export type FollowUpRefusal = { code: "not-found" | "already-called" };

/** Makes the service call a duty asks for: it stands at the board's edge with its last day; once for each duty. */
export async function callForDuty(
  tx: TenantTx,
  asked: { circuitId: string; code: string; since: string },
  by: PersonId,
): Promise<Result<string, FollowUpRefusal>> {
  await tx.$queryRaw`select 1 from duty where circuit_id = ${asked.circuitId}::uuid and code = ${asked.code} and since = ${asked.since}::date for update`;
  const open = await listDuties(
    tx,
    { show: "open", code: asked.code, circuitId: asked.circuitId },
    { take: 50, skip: 0 },
  );
  const duty = open.find(({ since }) => since === asked.since);
  if (!duty) return err({ code: "not-found" });
  if (duty.call_id !== null) return err({ code: "already-called" });
  const { equipment } = await tx.circuit.findFirstOrThrow({
    where: { id: asked.circuitId },
    select: { equipment: { select: { id: true, site: { select: { id: true, customerId: true } } } } },
  });
  const { id: siteId, customerId } = equipment.site;
  const call = {
    customerId,
    siteId,
    equipmentId: equipment.id,
    caller: "",
    symptom: callWords(duty),
    urgency: "planned",
    origin: "duty",
    ...(duty.due_by && { dueBy: toColumn(duty.due_by)! }),
  } as const;
  const callId = (await takeCall(tx, call, by))!;
  await tx.$executeRaw`update duty set call_id = ${callId}::uuid
    where circuit_id = ${asked.circuitId}::uuid and code = ${asked.code} and since = ${asked.since}::date`;
  const detail = { duty: asked.code, circuitId: asked.circuitId, dueBy: duty.due_by };
  await recordOfficeEvent(tx, by, { what: "created", subject: "service-call", subjectId: callId, detail });
  return ok(callId);
}
