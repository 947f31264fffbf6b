import "server-only";
import type { JobId, PersonId } from "@/lib/ids";
import { addDays, dayAt, dayBounds } from "@/lib/work/site-time";
import { listEntries } from "./entries";
import { findJob, listMemberNames } from "./jobs";
import type { TenantTx } from "./tenant";
import { listTraces } from "./traces";

/** A person's visits from today's start to tomorrow's end in the company's time, with what is needed to work on them. */
export async function listFieldDays(tx: TenantTx, person: PersonId, timeZone: string, now: Date) {
  const today = dayAt(now, timeZone);
  const within = { gte: dayBounds(today, timeZone).from, lt: dayBounds(addDays(today, 1), timeZone).to };
  const visits = await tx.visit.findMany({
    where: {
      people: { some: { personId: person } },
      OR: [
        { state: { in: ["on-the-way", "on-site"] } },
        { state: { not: "cancelled" }, plannedStart: within },
        { state: { not: "cancelled" }, plannedStart: null, windowFrom: within },
      ],
    },
    include: {
      people: { select: { personId: true, person: { select: { name: true } } } },
      workOrder: {
        select: {
          id: true,
          number: true,
          serviceCall: {
            select: {
              number: true,
              symptom: true,
              urgency: true,
              customer: { select: { name: true, phone: true } },
              site: true,
              equipment: true,
            },
          },
          jobs: { include: { circuit: true }, orderBy: { number: "asc" } },
        },
      },
    },
    orderBy: [{ plannedStart: "asc" }, { windowFrom: "asc" }],
  });
  const history = await listHistory(
    tx,
    visits.flatMap((visit) => visit.workOrder.serviceCall.equipment?.id ?? []),
  );
  const arrivals = await listArrivals(
    tx,
    visits.flatMap(({ id, state }) => (state === "on-site" ? [id] : [])),
  );
  return visits.map((visit) => {
    const { serviceCall: call, jobs, ...order } = visit.workOrder;
    const { site, equipment } = call;
    return {
      id: visit.id,
      version: visit.version,
      state: visit.state,
      onSiteSince: arrivals.get(visit.id) ?? null,
      windowFrom: visit.windowFrom,
      windowTo: visit.windowTo,
      plannedStart: visit.plannedStart,
      plannedMinutes: visit.plannedMinutes,
      workOrder: { id: order.id, number: Number(order.number) },
      call: { number: Number(call.number), symptom: call.symptom, urgency: call.urgency },
      customer: call.customer,
      site: {
        name: site.name,
        street: site.street,
        city: site.city,
        postalCode: site.postalCode,
        timeZone: site.timeZone,
        accessNote: site.accessNote,
        latitude: site.latitude,
        longitude: site.longitude,
      },
      equipment: equipment && {
        id: equipment.id,
        name: equipment.name,
        maker: equipment.maker,
        model: equipment.model,
        serial: equipment.serial,
        place: equipment.place,
        yearMade: equipment.yearMade,
      },
      people: visit.people.map((each) => ({ personId: each.personId, name: each.person.name })),
      jobs: jobs.map((job) => ({
        id: job.id,
        number: Number(job.number),
        circuitName: job.circuit.name,
        refrigerant: job.circuit.actualRefrigerant ?? job.circuit.nameplateRefrigerant,
        state: job.state,
        kind: kindOf(job.summary),
      })),
      history: equipment ? (history.get(equipment.id) ?? []) : [],
    };
  });
}

/** When those now on site said that they had come; the hours of the work order are counted from there too. */
async function listArrivals(tx: TenantTx, visitIds: readonly string[]): Promise<ReadonlyMap<string, Date>> {
  const events = await tx.officeEvent.findMany({
    where: {
      subject: "visit",
      what: "moved",
      subjectId: { in: [...visitIds] },
      detail: { path: ["to"], equals: "on-site" },
    },
    select: { subjectId: true, at: true },
    orderBy: { at: "desc" },
  });
  return new Map(events.map(({ subjectId, at }) => [subjectId, at])); // the earliest stays
}

/** The last closed jobs of each unit, newest first, with what was weak about their proof. */
async function listHistory(tx: TenantTx, equipmentIds: readonly string[]) {
  const jobs = await tx.circuitJob.findMany({
    where: { state: "closed", circuit: { equipmentId: { in: [...new Set(equipmentIds)] } } },
    select: {
      number: true,
      changedAt: true,
      strength: true,
      summary: true,
      circuit: { select: { equipmentId: true } },
    },
    orderBy: { changedAt: "desc" },
    take: 200,
  });
  const byUnit = new Map<
    string,
    { jobNumber: number; closedAt: Date; kind: string; strength: string | null; weakReasons: string[] }[]
  >();
  for (const job of jobs) {
    const unit = byUnit.get(job.circuit.equipmentId) ?? [];
    byUnit.set(job.circuit.equipmentId, unit);
    if (unit.length >= 5) continue;
    unit.push({
      jobNumber: Number(job.number),
      closedAt: closedAtOf(job.summary) ?? job.changedAt,
      kind: kindOf(job.summary),
      strength: job.strength,
      weakReasons: weakReasonsOf(job.summary),
    });
  }
  return byUnit;
}

/** One job with its log from a point on, its traces, and the tools and cylinders that evidence can name. */
export async function readFieldJob(tx: TenantTx, jobId: JobId, afterSeq: number) {
  const job = await findJob(tx, jobId);
  if (!job) return null;
  const entries = await listEntries(tx, jobId, afterSeq);
  const { serviceCall, visits, ...order } = job.workOrder;
  return {
    job: {
      id: job.id,
      number: Number(job.number),
      workOrder: { id: order.id, number: Number(order.number) },
      customer: serviceCall.customer.name,
      symptom: serviceCall.symptom,
      site: serviceCall.site,
      equipment: job.circuit.equipment,
      circuit: { id: job.circuit.id, name: job.circuit.name, nameplateRefrigerant: job.circuit.nameplateRefrigerant },
      visits: visits.map((visit) => visit.id),
    },
    entries: entries.map(({ stamp, ...entry }) => ({ ...entry, stamp })),
    people: await listAuthors(tx, jobId),
    traces: await listTraces(tx, jobId),
    tools: await tx.tool.findMany({ where: { retiredAt: null }, omit: { tenantId: true }, orderBy: { name: "asc" } }),
    cylinders: await tx.cylinder.findMany({
      where: { retiredAt: null },
      omit: { tenantId: true },
      orderBy: { label: "asc" },
    }),
    upTo: entries.at(-1)?.stamp?.receivedSeq ?? afterSeq,
  };
}

/** Who has written in a job's log, by name: a certificate made on a tablet names them. */
async function listAuthors(tx: TenantTx, jobId: JobId): Promise<{ id: string; name: string }[]> {
  const authors = await tx.entry.findMany({ where: { jobId }, distinct: ["personId"], select: { personId: true } });
  const names = await listMemberNames(tx);
  return authors.map(({ personId }) => ({ id: personId, name: names.get(personId) ?? "" }));
}

// The summary is what lib/db/job-summary.ts wrote; rows of a job never refreshed hold {}.
function kindOf(summary: unknown): string {
  const kind = (summary as { kind?: unknown }).kind;
  return typeof kind === "string" ? kind : "unknown";
}

function closedAtOf(summary: unknown): Date | null {
  const { closedAt } = summary as { closedAt?: unknown };
  return typeof closedAt === "string" ? new Date(closedAt) : null;
}

function weakReasonsOf(summary: unknown): string[] {
  const reasons = (summary as { proofReasons?: unknown }).proofReasons;
  return Array.isArray(reasons) ? reasons.filter((each) => typeof each === "string") : [];
}
