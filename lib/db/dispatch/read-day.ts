import "server-only";
import type { DayRecords, OtherDayRecord, PersonRecord } from "@/lib/work/day/day-records";
import { limitsOf, placeOf, roadsOf } from "@/lib/work/day/planning-rules";
import { addDays, dayBounds, weekdayOf } from "@/lib/work/site-time";
import type { TenantTx } from "../tenant";
import { listVisitsOf } from "./list-visits";
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
