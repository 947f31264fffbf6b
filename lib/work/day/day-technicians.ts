import { andOnCall, formCrews, type Lunch, type Person, type Technician } from "@/lib/dispatch";
import { hasEnded, isVisitState } from "../visit-state";
import type { DayClock } from "./day-clock";
import type { DayPlaces } from "./day-places";
import type { DayRecords, PersonRecord, ToolRecord, VisitRecord } from "./day-records";
import type { Demand, Lack } from "./visit-demands";
import { judgeWorkingHours, type NotAtWork, type WorkingHours } from "./working-hours";

export interface LeftOutPerson {
  readonly personId: string;
  readonly reason: NotAtWork | "apprentice-without-company" | "partner-not-at-work" | "partner-not-qualified";
}

export interface DayCrews {
  readonly technicians: readonly Technician[];
  readonly leftOut: readonly LeftOutPerson[];
  /** Who is planned together with whom: the crew's technician for each person on the road. */
  readonly crewOf: ReadonlyMap<string, string>;
  /** Whose day is planned in its longer part only. */
  readonly cut: readonly string[];
  /** What each person at work lacks, by the words of the demand. */
  readonly lacks: ReadonlyMap<string, ReadonlyMap<string, Lack>>;
}

/** The directive's break: a day longer than six hours has one. @source Directive 2003/88/EC article 4 (from memory) */
const DAY_WITHOUT_BREAK_S = 6 * 3600;

/** Who can be sent on this day, when, from where, with what certificates and tools; and who cannot, and why. */
export function listTechnicians(
  records: DayRecords,
  demands: readonly Demand[],
  places: DayPlaces,
  clock: DayClock,
  nowS: number | null,
): DayCrews {
  const leftOut: LeftOutPerson[] = [];
  const cut: string[] = [];
  const atWork: { person: PersonRecord; hours: WorkingHours }[] = [];
  for (const person of records.people) {
    const hours = judgeWorkingHours(person, records, clock);
    if (!hours.ok) leftOut.push({ personId: person.personId, reason: hours.error });
    else {
      atWork.push({ person, hours: hours.value });
      if (hours.value.isCut) cut.push(person.personId);
    }
  }
  const pairs = atWork.flatMap(({ person }) => pairOf(person, records.people));
  const toolsOf = (personId: string) => records.tools.filter(({ heldBy }) => heldBy === personId);
  // an apprentice's own tools are in the van they ride in
  const toolsInVan = (lead: string): readonly ToolRecord[] => [
    ...toolsOf(lead),
    ...pairs.filter((pair) => pair.lead === lead).flatMap(({ second }) => toolsOf(second)),
  ];
  const lacks = new Map<string, ReadonlyMap<string, Lack>>();
  const people = atWork.map(({ person, hours }): Person => {
    const tools = toolsInVan(person.personId);
    const lacking = new Map<string, Lack>();
    for (const demand of demands) {
      const lack = demand.lackOf(person, tools);
      if (lack !== null) lacking.set(demand.words, lack);
    }
    lacks.set(person.personId, lacking);
    const from = nowS === null ? undefined : freeFrom(person.personId, records.visits, places, clock, nowS);
    const base = places.ofBase(person);
    return {
      id: person.personId,
      skills: demands.filter(({ words }) => !lacking.has(words)).map(({ words }) => words),
      start: base,
      end: person.endsAtBase ? base : null,
      shift: hours.shift,
      maxOvertime: hours.maxOvertimeS,
      lunch: lunchOf(records, hours, Math.max(from?.time ?? 0, nowS ?? 0)),
      isApprentice: person.isApprentice,
      ...(person.stock !== null && { stock: person.stock }),
      ...(person.maxVisits !== null && { maxJobs: person.maxVisits }),
      ...(from !== undefined && { from }),
    };
  });
  const crews = formCrews(people, pairs);
  leftOut.push(...crews.left.map(({ person, reason }) => ({ personId: person, reason })));
  let technicians = crews.technicians;
  for (const { person, hours } of atWork)
    if (hours.isOnCall) technicians = andOnCall(technicians, person.personId, hours.shift[1] + hours.maxOvertimeS);
  const driving = new Set(technicians.map(({ id }) => id));
  const crewOf = new Map<string, string>(technicians.map(({ id }) => [id, id]));
  for (const { lead, second } of pairs) if (driving.has(lead) && !driving.has(second)) crewOf.set(second, lead);
  return { technicians, leftOut, crewOf, cut, lacks };
}

/** Of two who name each other, the qualified one leads; an apprentice never does. */
function pairOf(person: PersonRecord, people: readonly PersonRecord[]): { lead: string; second: string }[] {
  const companion = people.find(({ personId }) => personId === person.ridesWith);
  if (companion === undefined) return [];
  if (companion.isApprentice && !person.isApprentice) return [{ lead: person.personId, second: companion.personId }];
  return [{ lead: companion.personId, second: person.personId }];
}

function lunchOf({ limits }: DayRecords, { shift }: WorkingHours, freeFromS: number): Lunch | null {
  const { lunch } = limits;
  if (lunch === null || shift[1] - shift[0] <= DAY_WITHOUT_BREAK_S) return null;
  const window = [lunch.fromMinute * 60, lunch.toMinute * 60] as const;
  if (Math.max(freeFromS, shift[0]) > window[1] || shift[1] < window[0]) return null;
  return { window, duration: lunch.minutes * 60 };
}

/** Where a person is and from when free, by the visits begun or ended today; nothing where the day has not begun for them. */
function freeFrom(
  personId: string,
  visits: readonly VisitRecord[],
  places: DayPlaces,
  clock: DayClock,
  nowS: number,
): { location: number; time: number } | undefined {
  let latest: { location: number; time: number; ofS: number } | undefined;
  for (const visit of visits) {
    if (!visit.people.includes(personId) || visit.state === "planned" || visit.state === "cancelled") continue;
    const startS = visit.plannedStart === null ? nowS : clock.secondsOf(visit.plannedStart);
    const lastsS = visit.plannedMinutes * 60;
    const isOver = isVisitState(visit.state) && hasEnded(visit.state);
    const endS = visit.state === "on-the-way" ? Math.max(startS, nowS) + lastsS : Math.max(startS + lastsS, nowS);
    const found = { location: places.ofSite(visit), time: isOver ? nowS : endS, ofS: isOver ? startS : endS };
    if (latest === undefined || found.time > latest.time || (found.time === latest.time && found.ofS >= latest.ofS))
      latest = found;
  }
  return latest && { location: latest.location, time: latest.time };
}
