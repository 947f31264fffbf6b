import "server-only";
import { findRefrigerant } from "@/lib/hvac";
import type { DayRecords, OtherDayRecord, PersonRecord, VisitRecord } from "@/lib/work/day/day-records";
import { limitsOf, placeOf, roadsOf } from "@/lib/work/day/planning-rules";
import { addDays, dayBounds, weekdayOf } from "@/lib/work/site-time";
import type { TenantTx } from "../tenant";
import { findPlanningRules } from "./planning-rules";

/** Everything of the company that bears on one day (YYYY-MM-DD in the office's time zone). */
export async function readDay(
  tx: TenantTx,
  day: string,
  company: { readonly timeZone: string; readonly ruleSet: "us" | "eu" },
): Promise<DayRecords> {
  const rules = await findPlanningRules(tx, company.ruleSet);
  const weekday = weekdayOf(day);
  return {
    day,
    timeZone: company.timeZone,
    ruleSet: company.ruleSet,
    limits: limitsOf(rules),
    roads: roadsOf(rules),
    yard: placeOf(rules.yardLatitude, rules.yardLongitude),
    people: await listPeople(tx, weekday, dayBounds(day, company.timeZone)),
    tools: await tx.tool.findMany({
      where: { retiredAt: null, heldBy: { not: null } },
      select: { kind: true, heldBy: true, calibrationDueOn: true, checkDueOn: true, doubtedOn: true, ratedFor: true },
    }),
    visits: await listVisitsOf(tx, dayBounds(day, company.timeZone)),
    otherDays: await listOtherDays(tx, day, addDays(day, 1 - weekday), company.timeZone),
  };
}

async function listPeople(tx: TenantTx, weekday: number, span: { from: Date; to: Date }): Promise<PersonRecord[]> {
  const people = await tx.member.findMany({
    where: { active: true, roles: { has: "technician" } },
    orderBy: { name: "asc" },
    select: {
      personId: true,
      name: true,
      certificates: { select: { kind: true, expiresOn: true } },
      weeklyShifts: { select: { weekday: true, beginsMinute: true, endsMinute: true } },
      personTimes: {
        where: { withdrawnAt: null, fromAt: { lt: span.to }, toAt: { gt: span.from } },
        select: { kind: true, fromAt: true, toAt: true },
      },
      fieldProfiles: true,
      vanStock: { select: { part: true, quantity: true } },
    },
  });
  return people.map(({ weeklyShifts, personTimes, fieldProfiles, vanStock, ...person }) => {
    const profile = fieldProfiles[0];
    const shift = weeklyShifts.find((each) => each.weekday === weekday);
    return {
      ...person,
      hasWeek: weeklyShifts.some(({ beginsMinute }) => beginsMinute !== null),
      shift:
        shift?.beginsMinute != null && shift.endsMinute !== null
          ? { beginsMinute: shift.beginsMinute, endsMinute: shift.endsMinute }
          : null,
      times: personTimes.map(({ kind, fromAt, toAt }) => ({ kind: kind === "away" ? kind : "on-call", fromAt, toAt })),
      base: placeOf(profile?.latitude ?? null, profile?.longitude ?? null),
      endsAtBase: profile?.endsAtBase ?? true,
      isApprentice: profile?.isApprentice ?? false,
      ridesWith: profile?.ridesWith ?? null,
      maxVisits: profile?.maxVisits ?? null,
      stock: vanStock.length === 0 ? null : quantities(vanStock),
    };
  });
}

/** Visits that begin on the day, and those promised for it or for no day yet that nobody has given a start. */
async function listVisitsOf(tx: TenantTx, { from, to }: { from: Date; to: Date }): Promise<VisitRecord[]> {
  const visits = await tx.visit.findMany({
    where: {
      OR: [
        { state: { not: "cancelled" }, plannedStart: { gte: from, lt: to } },
        { state: "planned", plannedStart: null, windowFrom: { lt: to }, windowTo: { gt: from } },
        { state: "planned", plannedStart: null, windowFrom: null },
      ],
    },
    orderBy: [{ plannedStart: "asc" }, { windowFrom: "asc" }, { id: "asc" }],
    select: {
      id: true,
      version: true,
      state: true,
      windowFrom: true,
      windowTo: true,
      plannedStart: true,
      plannedMinutes: true,
      people: { select: { personId: true } },
      demands: true,
      parts: { where: { quantity: { gt: 0 } }, select: { part: true, quantity: true } },
      workOrder: {
        select: {
          number: true,
          visits: { select: { id: true, state: true, people: { select: { personId: true } } } },
          jobs: {
            where: { state: { not: "closed" } },
            select: {
              summary: true,
              circuit: {
                select: {
                  refrigerantState: true,
                  actualRefrigerant: true,
                  factoryChargeKg: true,
                  equipment: { select: { applianceKind: true } },
                },
              },
            },
          },
          serviceCall: {
            select: {
              urgency: true,
              takenAt: true,
              customer: { select: { name: true } },
              site: { select: { id: true, latitude: true, longitude: true } },
            },
          },
        },
      },
    },
  });
  return visits.map(({ workOrder, demands, parts, people, windowFrom, windowTo, ...visit }) => {
    const { serviceCall: call } = workOrder;
    const demand = demands[0];
    return {
      ...visit,
      label: `Work order ${workOrder.number}, ${call.customer.name}`,
      window: windowFrom && windowTo && { from: windowFrom, to: windowTo },
      people: people.map(({ personId }) => personId),
      earlierPeople: workOrder.visits
        .filter((other) => other.id !== visit.id && (other.state === "left-for-today" || other.state === "done"))
        .flatMap((other) => other.people.map(({ personId }) => personId)),
      siteId: call.site.id,
      at: placeOf(call.site.latitude, call.site.longitude),
      urgency: call.urgency,
      calledAt: call.takenAt,
      circuits: workOrder.jobs.map(({ summary, circuit: { equipment, ...circuit } }) => ({
        ...circuit,
        applianceKind: equipment.applianceKind,
        kind: kindOf(summary),
        safetyClass: safetyClassOf(circuit),
      })),
      parts: quantities(parts),
      peopleNeeded: demand?.peopleNeeded ?? 1,
      pinnedTo: demand?.pinnedTo ?? null,
      isStartPinned: demand?.isStartPinned ?? false,
      preferredPerson: demand?.preferredPerson ?? null,
    };
  });
}

/** Each person's work on the other days of this week and on the day before it, from first start to last end. */
async function listOtherDays(
  tx: TenantTx,
  day: string,
  monday: string,
  timeZone: string,
): Promise<readonly OtherDayRecord[]> {
  const before = addDays(monday, -1);
  const rows = await tx.$queryRaw<{ person_id: string; from_at: Date; to_at: Date }[]>`
    select p.person_id, min(planned_start) as from_at, max(planned_start + make_interval(mins => planned_minutes)) as to_at
    from visit v join visit_person p on p.tenant_id = v.tenant_id and p.visit_id = v.id
    where v.state <> 'cancelled'
      and planned_start >= ${dayBounds(before, timeZone).from} and planned_start < ${dayBounds(addDays(monday, 7), timeZone).from}
      and (planned_start at time zone ${timeZone})::date <> ${day}::date
    group by p.person_id, (planned_start at time zone ${timeZone})::date`;
  return rows.map((row) => ({ personId: row.person_id, fromAt: row.from_at, toAt: row.to_at }));
}

function quantities(rows: readonly { part: string; quantity: number }[]): Record<string, number> {
  return Object.fromEntries(rows.map(({ part, quantity }) => [part, quantity]));
}

function safetyClassOf(circuit: { refrigerantState: string; actualRefrigerant: string | null }) {
  const stated = circuit.refrigerantState === "identified" || circuit.refrigerantState === "retrofitted";
  return (
    (stated && circuit.actualRefrigerant !== null && findRefrigerant(circuit.actualRefrigerant)?.safetyClass) || null
  );
}

// The summary is what lib/db/job-summary.ts wrote; rows of a job never refreshed hold {}.
function kindOf(summary: unknown): string {
  const kind = (summary as { kind?: unknown }).kind;
  return typeof kind === "string" ? kind : "unknown";
}
