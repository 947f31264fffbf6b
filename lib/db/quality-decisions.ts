import "server-only";
import { addDays } from "@/lib/work/site-time";
import { fromColumn, toColumn } from "./calendar-date";
import { countProposedCallbacks } from "./callbacks";
import { listFallingOutOfDate } from "./exceptions";
import type { JobSummary } from "./job-summary";
import { listMemberNames } from "./jobs";
import type { TenantTx } from "./tenant";

const shown = {
  id: true,
  number: true,
  state: true,
  summary: true,
  circuit: { select: { name: true, equipment: { select: { name: true } } } },
  workOrder: { select: { serviceCall: { select: { customer: { select: { name: true } } } } } },
} as const;

/** What waits for a supervisor and what may go wrong next; `weakDays` is how far back weak proofs are listed. */
export async function listDecisions(tx: TenantTx, asked: { today: string; now: Date; weakDays: number }) {
  const { today, now, weakDays } = asked;
  const asking = await tx.circuitJob.findMany({
    where: { asksOverride: true },
    select: shown,
    orderBy: { changedAt: "asc" },
    take: 50,
  });
  const failedHolds = await tx.circuitJob.findMany({
    where: {
      state: { not: "closed" },
      summary: { path: ["steps"], array_contains: [{ step: "hold", status: "refused" }] },
    },
    select: shown,
    orderBy: { changedAt: "desc" },
    take: 50,
  });
  const weak = await tx.jobOutcome.findMany({
    where: { closedOn: { gte: toColumn(addDays(today, -weakDays))! }, strength: { in: ["weak", "none"] } },
    select: { closedOn: true, strength: true, callbackOn: true, job: { select: shown } },
    orderBy: [{ closedOn: "desc" }, { jobId: "desc" }],
    take: 50,
  });
  return {
    names: await listMemberNames(tx),
    asked: asking.flatMap((job) => (summaryOf(job).asks ?? []).map((ask) => ({ ask, ...nameOf(job) }))),
    failedHolds: failedHolds.map((job) => ({
      ...nameOf(job),
      why: (summaryOf(job).missing ?? []).filter(({ step }) => step === "hold").map(({ text }) => text),
    })),
    weak: weak.map(({ job, closedOn, strength, callbackOn }) => ({
      ...nameOf(job),
      strength,
      closedOn: fromColumn(closedOn)!,
      callbackOn: fromColumn(callbackOn),
      why: summaryOf(job).proofReasons ?? [],
    })),
    proposedCallbacks: await countProposedCallbacks(tx),
    falling: await listFallingOutOfDate(tx, addDays(today, 30)),
    awaited: await listAwaitedWork(tx),
    silent: await listSilentVisits(tx, now),
  };
}

type ShownJob = { id: string; number: bigint; summary: unknown; circuit: Named; workOrder: Ordered };
type Named = { name: string; equipment: { name: string } };
type Ordered = { serviceCall: { customer: { name: string } } };

function summaryOf(job: Pick<ShownJob, "summary">): Partial<JobSummary> {
  return job.summary as Partial<JobSummary>;
}

function nameOf(job: ShownJob) {
  return {
    jobId: job.id,
    number: Number(job.number),
    unit: `${job.circuit.equipment.name}, ${job.circuit.name}`,
    customer: job.workOrder.serviceCall.customer.name,
  };
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
