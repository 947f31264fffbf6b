import type { DayProblem } from "../day/day-problem";
import type { DayRecords } from "../day/day-records";
import type { LeftOutPerson } from "../day/day-technicians";
import { dateWords } from "../site-time";
import type { Board, BoardDay, BoardPerson, BoardVisit, PersonDay } from "./board";

/** What stands on a bar beside what the plan needs to know of a visit. */
export interface ShownVisit {
  readonly orderId: string;
  readonly orderNumber: number;
  readonly callNumber: number;
  readonly customer: string;
  readonly city: string;
  readonly symptom: string;
}

/** One day of a board: its records and the planning problem made of them. */
export interface DayView {
  readonly records: DayRecords;
  readonly problem: DayProblem;
}

const absentWords: Record<LeftOutPerson["reason"], string> = {
  "no-week-on-record": "has no working hours on record",
  "not-at-work": "is not at work this day",
  away: "is away",
  "no-rest-yet": "has had too little rest since the last day",
  "no-hours-left-this-week": "has no hours left this week",
  "apprentice-without-company": "is an apprentice with nobody to ride with",
  "partner-not-at-work": "rides with somebody who is not at work",
  "partner-not-qualified": "rides with another apprentice",
};

/** The board of some days from their records; calls without a work order are added by the reader. */
export function makeBoard(
  views: readonly DayView[],
  shown: ReadonlyMap<string, ShownVisit>,
  calls: readonly BoardVisit[],
  now: Date,
): Board {
  const days = views.map(
    ({ records, problem }): BoardDay => ({
      day: records.day,
      originMs: problem.clock.instantOf(0).getTime(),
      words: dateWords(records.day),
    }),
  );
  const nowMs = now.getTime();
  const lastMs = days.at(-1)!.originMs + 86_400_000;
  const today = days.findIndex(({ originMs }, d) => nowMs >= originMs && nowMs < (days[d + 1]?.originMs ?? lastMs));
  return {
    days,
    today: today < 0 ? null : today,
    nowMs,
    people: views[0]!.records.people.map(
      (person): BoardPerson => ({
        id: person.personId,
        name: person.name,
        base: person.base ?? views[0]!.records.yard,
        endsAtBase: person.endsAtBase,
        stock: person.stock,
        maxVisits: person.maxVisits,
        days: views.map((view) => personDayOf(view, person.personId)),
      }),
    ),
    visits: [...listVisits(views, shown), ...calls],
    roads: views[0]!.records.roads,
    notes: [...new Set(views.flatMap(({ problem }) => problem.notes))],
  };
}

function personDayOf({ problem }: DayView, personId: string): PersonDay {
  const technician = problem.problem.technicians.find(({ id }) => id === personId);
  const lead = [...problem.crews].find(([, riders]) => riders.includes(personId))?.[0];
  const ridesWith = lead !== undefined && lead !== personId ? lead : null;
  const reason = problem.leftOut.find((left) => left.personId === personId)?.reason;
  const at = (seconds: number) => problem.clock.instantOf(seconds).getTime();
  return {
    shift: technician
      ? {
          fromMs: at(technician.shift[0]),
          toMs: at(technician.shift[1]),
          latestMs: at(technician.shift[1] + (technician.maxOvertime ?? 0)),
        }
      : null,
    absent: reason ? absentWords[reason] : "is not at work this day",
    ridesWith,
    crew: problem.crews.get(personId) ?? [personId],
    skills: technician?.skills ?? [],
    lacks: Object.fromEntries(problem.lacks.get(personId) ?? []),
  };
}

function listVisits(views: readonly DayView[], shown: ReadonlyMap<string, ShownVisit>): readonly BoardVisit[] {
  const visits = new Map<string, BoardVisit>();
  for (const { records, problem } of views) {
    const demandsOf = new Map(problem.problem.jobs.map(({ id, skills }) => [id, skills]));
    for (const visit of records.visits) {
      const words = shown.get(visit.id);
      if (visits.has(visit.id) || words === undefined) continue;
      visits.set(visit.id, {
        kind: "visit",
        id: visit.id,
        version: visit.version,
        state: visit.state,
        orderId: words.orderId,
        label: `Work order ${words.orderNumber}`,
        callNumber: words.callNumber,
        customer: words.customer,
        city: words.city,
        symptom: words.symptom,
        urgency: visit.urgency,
        at: visit.at,
        startMs: visit.plannedStart?.getTime() ?? null,
        minutes: visit.plannedMinutes,
        people: visit.people,
        window: visit.window && { fromMs: visit.window.from.getTime(), toMs: visit.window.to.getTime() },
        demands: demandsOf.get(visit.id) ?? [],
        parts: visit.parts,
      });
    }
  }
  return [...visits.values()];
}
