import { addDays } from "@/lib/hvac/calendar-day";
import { LEAK_DEADLINES } from "@/lib/hvac/rules/us-leak";
import type { Duty, LawEvent } from "./duty";

/** A leak above the trigger, from the day it was found until both verification tests have shown the repair to hold. */
export interface LeakCase {
  readonly on: string;
  readonly repairedOn: string | null;
  readonly initialOn: string | null;
  readonly normalOn: string | null;
  /** The day of the successful follow-up test; only both tests end a case. */
  readonly closedOn: string | null;
  readonly failedFollowUpOn: string | null;
  readonly planOn: string | null;
  readonly retrofittedOn: string | null;
}

/** Where the repair of a leak found on a day stands; a failed test asks for the repair and both tests again. */
export function followCase(on: string, events: readonly LawEvent[]): LeakCase {
  let leak: LeakCase = {
    on,
    repairedOn: null,
    initialOn: null,
    normalOn: null,
    closedOn: null,
    failedFollowUpOn: null,
    planOn: null,
    retrofittedOn: null,
  };
  const since = events.filter((event) => event.on >= on).sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
  for (const event of since) {
    leak = step(leak, event);
    if (leak.closedOn !== null || leak.retrofittedOn !== null) break;
  }
  return leak;
}

function step(leak: LeakCase, { kind, on, passed }: LawEvent): LeakCase {
  const again = { repairedOn: null, initialOn: null, normalOn: null };
  switch (kind) {
    case "repair":
      return { ...leak, repairedOn: on };
    case "initial-verification":
      return passed === true ? { ...leak, repairedOn: leak.repairedOn ?? on, initialOn: on } : { ...leak, ...again };
    case "normal-operation":
      return leak.initialOn === null ? leak : { ...leak, normalOn: on };
    case "follow-up-verification":
      if (passed !== true) return { ...leak, ...again, failedFollowUpOn: on };
      return leak.initialOn === null ? leak : { ...leak, closedOn: on };
    case "retrofit-plan":
      return { ...leak, planOn: on };
    case "retrofit-done":
      return { ...leak, retrofittedOn: on };
    default:
      return leak;
  }
}

/** What a leak above the trigger asks for, each with its last day. @source 40 CFR 82.157(d), (e), (h); 84.106 */
export function caseDuties(leak: LeakCase, processShutdownNeeded: boolean): Duty[] {
  const { repairDays, repairDaysWithShutdown, followUpDays, planDays, retrofitDays } = LEAK_DEADLINES;
  const allowed = processShutdownNeeded ? repairDaysWithShutdown : repairDays;
  const dueBy = addDays(leak.on, allowed.days);
  const done = leak.retrofittedOn;
  const owner = { since: leak.on, from: null, whose: "owner-or-operator" } as const;
  const followUpFrom = leak.normalOn ?? leak.initialOn;
  const duties: Duty[] = [
    {
      ...owner,
      code: "repair",
      text: `Repair every leak within ${allowed.days} days of the addition that showed it.`,
      dueBy,
      doneOn: leak.repairedOn ?? done,
      source: allowed.source,
      mark: allowed.mark,
    },
    {
      ...owner,
      code: "initial-verification",
      text: "Initial verification test: each repaired leak shown tight before refrigerant goes back in.",
      dueBy,
      doneOn: leak.initialOn ?? done,
      source: "40 CFR 82.157(e)",
      mark: "memory",
    },
    {
      ...owner,
      code: "follow-up-verification",
      text: `Follow-up verification test within ${followUpDays.days} days of a successful initial test, or of reaching normal operating conditions.`,
      dueBy: followUpFrom === null ? null : addDays(followUpFrom, followUpDays.days),
      doneOn: leak.closedOn ?? done,
      source: followUpDays.source,
      mark: followUpDays.mark,
    },
  ];
  if (leak.closedOn !== null) return duties;
  const planFrom = leak.failedFollowUpOn ?? dueBy;
  duties.push({
    ...owner,
    code: "retrofit-plan",
    text: `If the repair is not verified by ${planFrom}: a plan to retrofit or retire within ${planDays.days} days of that.`,
    dueBy: addDays(planFrom, planDays.days),
    doneOn: leak.planOn ?? done,
    source: planDays.source,
    mark: planDays.mark,
  });
  if (leak.planOn !== null)
    duties.push({
      ...owner,
      code: "retrofit-done",
      text: "Retrofit or retire as planned, within a year of the plan (extensions exist).",
      dueBy: addDays(leak.planOn, retrofitDays.days),
      doneOn: done,
      source: retrofitDays.source,
      mark: retrofitDays.mark,
    });
  return duties;
}
