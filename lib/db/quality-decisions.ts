import "server-only";
import { addDays } from "@/lib/work/site-time";
import { fromColumn, toColumn } from "./calendar-date";
import { countProposedCallbacks } from "./callbacks";
import { listFallingOutOfDate } from "./exceptions";
import type { JobSummary } from "./job-summary";
import { listMemberNames } from "./jobs";
import type { TenantTx } from "./tenant";

/** What waits for a supervisor and what may go wrong next; `weakDays` is how far back weak proofs are listed. */
export async function listDecisions(tx: TenantTx, asked: { today: string; now: Date; weakDays: number }) {
  const { today, now, weakDays } = asked;
  const only = { select: { id: true }, take: 50 } as const;
  const asking = await tx.circuitJob.findMany({
    ...only,
    where: { asksOverride: true },
    orderBy: { changedAt: "asc" },
  });
  const failedHolds = await tx.circuitJob.findMany({
    ...only,
    where: {
      state: { not: "closed" },
      summary: { path: ["steps"], array_contains: [{ step: "hold", status: "refused" }] },
    },
    orderBy: { changedAt: "desc" },
  });
  const weak = await tx.jobOutcome.findMany({
    where: { closedOn: { gte: toColumn(addDays(today, -weakDays))! }, strength: { in: ["weak", "none"] } },
    select: { jobId: true, closedOn: true, strength: true, callbackOn: true },
    orderBy: [{ closedOn: "desc" }, { jobId: "desc" }],
    take: 50,
  });
  const jobs = await readShownJobs(tx, [...[...asking, ...failedHolds].map(({ id }) => id), ...weak.map(jobIdOf)]);
  return {
    names: await listMemberNames(tx),
    asked: asking.flatMap(({ id }) => {
      const { summary, ...job } = jobs.get(id)!;
      return (summary.asks ?? []).map((ask) => ({ ask, ...job }));
    }),
    failedHolds: failedHolds.map(({ id }) => {
      const { summary, ...job } = jobs.get(id)!;
      const why = (summary.missing ?? []).filter(({ step }) => step === "hold").map(({ text }) => text);
      return { ...job, why };
    }),
    weak: weak.map(({ jobId, strength, closedOn, callbackOn }) => {
      const { summary, ...job } = jobs.get(jobId)!;
      const days = { closedOn: fromColumn(closedOn)!, callbackOn: fromColumn(callbackOn) };
      return { ...job, strength, ...days, why: summary.proofReasons ?? [] };
    }),
    proposedCallbacks: await countProposedCallbacks(tx),
    falling: await listFallingOutOfDate(tx, addDays(today, 30)),
    awaited: await listAwaitedWork(tx),
    silent: await listSilentVisits(tx, now),
  };
}

const jobIdOf = ({ jobId }: { jobId: string }) => jobId;

interface ShownJob {
  readonly jobId: string;
  readonly number: number;
  readonly unit: string;
  readonly customer: string;
  readonly summary: Partial<JobSummary>;
}

/** Jobs with what names them. One statement: the typed client asks for each relation by the product of two lists, which reads a large company whole. */
async function readShownJobs(tx: TenantTx, ids: readonly string[]): Promise<Map<string, ShownJob>> {
  const rows = await tx.$queryRaw<(Omit<ShownJob, "number"> & { number: bigint })[]>`
    select j.id::text as "jobId", j.number, j.summary, e.name || ', ' || c.name as unit, k.name as customer
    from circuit_job j
    join circuit c on c.tenant_id = j.tenant_id and c.id = j.circuit_id
    join equipment e on e.tenant_id = c.tenant_id and e.id = c.equipment_id
    join work_order o on o.tenant_id = j.tenant_id and o.id = j.work_order_id
    join service_call s on s.tenant_id = o.tenant_id and s.id = o.service_call_id
    join customer k on k.tenant_id = s.tenant_id and k.id = s.customer_id
    where j.id = any (${[...new Set(ids)]}::uuid[])`;
  return new Map(rows.map((row) => [row.jobId, { ...row, number: Number(row.number) }]));
}

export interface AwaitedWork {
  readonly jobId: string;
  readonly number: number;
  readonly person: string;
  readonly entries: number;
  readonly lastReceivedAt: Date;
}

/** Open jobs of which a tablet has numbered entries that never arrived: they are still on it. */
async function listAwaitedWork(tx: TenantTx): Promise<AwaitedWork[]> {
  const rows = await tx.$queryRaw<{ id: string; number: bigint; name: string; entries: number; last: Date }[]>`
    select j.id::text as id, j.number, m.name, (max(e.seq) - count(*))::int as entries, max(e.received_at) as last
    from circuit_job j join entry e on e.job_id = j.id join member m on m.person_id = e.person_id
    where j.state <> 'closed' group by j.id, j.number, m.name, e.installation_id, e.person_id
    having max(e.seq) > count(*) order by max(e.received_at) limit 50`;
  return rows.map(({ id, number, name, entries, last }) => ({
    jobId: id,
    number: Number(number),
    person: name,
    entries,
    lastReceivedAt: last,
  }));
}

export interface SilentVisit {
  readonly orderId: string;
  readonly number: number;
  readonly people: string;
  readonly lastReceivedAt: Date | null;
}

const SILENT_AFTER_MINUTES = 120;

/** Visits where people are at work and nothing has come in for two hours: no signal, or nothing written. */
async function listSilentVisits(tx: TenantTx, now: Date): Promise<SilentVisit[]> {
  const since = new Date(now.getTime() - SILENT_AFTER_MINUTES * 60_000);
  const rows = await tx.$queryRaw<{ id: string; number: bigint; people: string | null; last: Date | null }[]>`
    select o.id::text as id, o.number,
      (select string_agg(m.name, ', ' order by m.name) from visit_person p join member m on m.person_id = p.person_id
       where p.visit_id = v.id) as people,
      (select max(e.received_at) from circuit_job j join entry e on e.job_id = j.id where j.work_order_id = o.id) as last
    from visit v join work_order o on o.id = v.work_order_id
    where v.state = 'on-site'
      and not exists (select from circuit_job j join entry e on e.job_id = j.id
                      where j.work_order_id = o.id and e.received_at > ${since})
    order by o.number limit 50`;
  return rows.map(({ id, number, people, last }) => ({
    orderId: id,
    number: Number(number),
    people: people ?? "nobody named",
    lastReceivedAt: last,
  }));
}
