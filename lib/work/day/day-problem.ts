import {
  type DispatchJob,
  type DispatchPlan,
  type DispatchProblem,
  type Objective,
  ON_CALL,
  TWO_PEOPLE,
} from "@/lib/dispatch";
import { type DayClock, dayClock } from "./day-clock";
import type { DayPlaces } from "./day-places";
import type { DayRecords, VisitRecord } from "./day-records";
import { type DayCrews, type LeftOutPerson, listTechnicians } from "./day-technicians";
import { type Demand, type Lack, listDemands, NEEDED_TOOLS } from "./visit-demands";

/** In seconds of driving: what is worth how long a detour. Our own choice, to be judged by dispatchers. */
export const DAY_OBJECTIVE: Objective = {
  travelPerSecond: 1,
  technicianUsed: 0,
  overtimePerSecond: 3,
  preferenceMiss: 900,
  unassigned: { "1": 6000, "2": 15_000, "3": 45_000, "4": 150_000 },
  latenessPerSecond: { "1": 0.5, "2": 1, "3": 3, "4": 10 },
  responsePerSecond: { "4": 1 },
  changeTechnician: 1800,
  changeStartPerSecond: 0.5,
  dropPromised: 12_000,
};

const priorityOf: Readonly<Record<string, number>> = { planned: 1, soon: 2, today: 3, danger: 4 };
const WHOLE_DAY_MS = 1000;
const REPLAN_MS = 800;

export interface DayProblem {
  readonly problem: DispatchProblem;
  /** People who cannot be sent, and why. */
  readonly leftOut: readonly LeftOutPerson[];
  /** What was assumed where the records say nothing, in words. */
  readonly notes: readonly string[];
  /** Every id that can stand in a plan's sentences, and what people call it. */
  readonly names: ReadonlyMap<string, string>;
  /** The people who ride together, by the one whose route it is. */
  readonly crews: ReadonlyMap<string, readonly string[]>;
  /** What each person at work lacks, by the words of the demand. */
  readonly lacks: ReadonlyMap<string, ReadonlyMap<string, Lack>>;
  readonly clock: DayClock;
}

/** A planning problem made of a company's day; `now` where the day is under way, so that what has begun stays. */
export function makeDayProblem(
  records: DayRecords,
  places: DayPlaces,
  travelSeconds: readonly (readonly number[])[],
  now: Date | null = null,
): DayProblem {
  const clock = dayClock(records.day, records.timeZone);
  const nowS = now === null ? null : Math.max(0, clock.secondsOf(now));
  const heldKinds = new Set(records.tools.filter(({ heldBy }) => heldBy !== null).map(({ kind }) => kind));
  const coming = records.visits.filter(({ state }) => state === "planned");
  const demandsOf = new Map(
    coming.map((visit) => [
      visit.id,
      visit.circuits.flatMap((circuit) => listDemands(circuit, records.ruleSet, records.day, heldKinds)),
    ]),
  );
  const crews = listTechnicians(records, distinct([...demandsOf.values()].flat()), places, clock, nowS);
  const endOfShiftsS = Math.max(0, ...crews.technicians.map(({ shift }) => shift[1]));
  const context = { records, places, clock, crews, endOfShiftsS };
  const jobs = coming.flatMap((visit) => jobsOf(visit, demandsOf.get(visit.id)!, context));
  return {
    problem: {
      name: records.day,
      ...(nowS !== null && { now: nowS }),
      timeLimitMs: now === null ? WHOLE_DAY_MS : REPLAN_MS,
      travelSeconds,
      technicians: crews.technicians,
      jobs,
      objective: DAY_OBJECTIVE,
    },
    leftOut: crews.leftOut,
    notes: listNotes(records, coming, heldKinds, crews),
    names: new Map([
      ...records.people.map(({ personId, name }) => [personId, name] as const),
      ...records.visits.map(({ id, label }) => [id, label] as const),
    ]),
    crews: ridersOf(crews),
    lacks: crews.lacks,
    clock,
  };
}

interface DayContext {
  readonly records: DayRecords;
  readonly places: DayPlaces;
  readonly clock: DayClock;
  readonly crews: DayCrews;
  readonly endOfShiftsS: number;
}

/** One job; where people of two vans are to meet at a set time, one for each van, at that time. */
function jobsOf(visit: VisitRecord, demands: readonly Demand[], day: DayContext): readonly DispatchJob[] {
  const job = jobOf(visit, demands, day);
  const vans = vansOf(visit, day.crews);
  if (visit.plannedStart === null || vans.length < 2) return [job];
  const skilled = day.crews.technicians.find(
    ({ id, skills }) => vans.includes(id) && job.skills.every((skill) => skills.includes(skill)),
  );
  const lead = skilled?.id ?? vans[0]!;
  const lockedStart = day.clock.secondsOf(visit.plannedStart);
  const { parts: _parts, skills: _skills, ...beside } = job;
  return [
    { ...job, lockedTo: lead, lockedStart },
    ...vans
      .filter((van) => van !== lead)
      .map((van) => ({ ...beside, id: `${visit.id} with ${van}`, skills: [], lockedTo: van, lockedStart })),
  ];
}

function jobOf(visit: VisitRecord, demands: readonly Demand[], day: DayContext): DispatchJob {
  const { clock, crews } = day;
  const skills = [...new Set(demands.map(({ words }) => words))];
  if (vansOf(visit, crews).length < 2 && Math.max(visit.peopleNeeded, visit.people.length) > 1) skills.push(TWO_PEOPLE);
  const window = visit.window && ([clock.secondsOf(visit.window.from), clock.secondsOf(visit.window.to)] as const);
  if (window && window[0] > day.endOfShiftsS) skills.push(ON_CALL);
  const startS = visit.plannedStart && clock.secondsOf(visit.plannedStart);
  const planned = visit.people.map((person) => crews.crewOf.get(person)).find((crew) => crew !== undefined);
  const preferred = [visit.preferredPerson, ...visit.earlierPeople].flatMap((person) =>
    person === null ? [] : (crews.crewOf.get(person) ?? []),
  );
  const priority = priorityOf[visit.urgency] ?? 2;
  return {
    id: visit.id,
    kind: visit.label,
    location: day.places.ofSite(visit),
    duration: visit.plannedMinutes * 60,
    skills,
    priority,
    ...(window && { windows: [window] }),
    ...(priority === 4 && { releasedAt: clock.secondsOf(visit.calledAt) }),
    ...(Object.keys(visit.parts).length > 0 && { parts: visit.parts }),
    ...(visit.pinnedTo !== null && { lockedTo: crews.crewOf.get(visit.pinnedTo) ?? visit.pinnedTo }),
    ...(visit.isStartPinned && startS !== null && { lockedStart: startS }),
    ...(preferred.length > 0 && { preferredTechnicians: preferred }),
    ...(planned !== undefined &&
      startS !== null && {
        promised: { technician: planned, start: startS, tolerance: day.records.limits.startSlackMinutes * 60 },
      }),
  };
}

/** The vans that are to meet at a visit whose start is set. */
function vansOf({ people, plannedStart }: VisitRecord, { crewOf }: DayCrews): readonly string[] {
  return plannedStart === null ? [] : [...new Set(people.flatMap((person) => crewOf.get(person) ?? []))];
}

function distinct(demands: readonly Demand[]): readonly Demand[] {
  return [...new Map(demands.map((demand) => [demand.words, demand])).values()];
}

function ridersOf({ crewOf }: DayCrews): ReadonlyMap<string, readonly string[]> {
  const riders = new Map<string, string[]>();
  for (const [person, crew] of crewOf) riders.set(crew, [...(riders.get(crew) ?? []), person]);
  return riders;
}

function listNotes(
  { people, limits }: DayRecords,
  coming: readonly VisitRecord[],
  heldKinds: ReadonlySet<string>,
  crews: DayCrews,
): readonly string[] {
  const notes: string[] = [];
  const nameOf = (personId: string) => people.find((person) => person.personId === personId)?.name ?? personId;
  const unmapped = [...new Set(coming.filter(({ at }) => at === null).map(({ label }) => label))];
  if (unmapped.length > 0)
    notes.push(`Not on the map, so that the way there is a guess of half an hour: ${unmapped.join("; ")}.`);
  if (coming.some(({ circuits }) => circuits.length > 0)) {
    const missing = NEEDED_TOOLS.filter((kind) => !heldKinds.has(kind)).map((kind) => kind.replaceAll("-", " "));
    if (missing.length > 0)
      notes.push(`Nobody is on record to hold one, so it is not asked for: ${missing.join(", ")}.`);
  }
  if (coming.some(({ parts }) => Object.keys(parts).length > 0)) {
    const unknown = crews.technicians.filter(({ stock }) => stock === undefined).map(({ id }) => nameOf(id));
    if (unknown.length > 0) notes.push(`No van stock on record, taken to carry every part: ${unknown.join(", ")}.`);
  }
  for (const person of crews.cut)
    notes.push(`${nameOf(person)} is away in mid-shift; only the longer part is planned.`);
  if (limits.lunch === null) notes.push("No time for lunch is set.");
  return notes;
}

export interface PlannedVisit {
  readonly visitId: string;
  readonly start: Date;
  readonly people: readonly string[];
}

/** A plan as it would be written to the visits: when each starts, and everybody who is there. */
export function listPlannedVisits({ clock, crews }: DayProblem, plan: DispatchPlan): readonly PlannedVisit[] {
  const planned = new Map<string, { visitId: string; start: Date; people: readonly string[] }>();
  for (const { technician, stops } of plan.routes)
    for (const stop of stops) {
      if (!("job" in stop)) continue;
      const visitId = stop.job.split(" ")[0]!;
      const people = [...(planned.get(visitId)?.people ?? []), ...(crews.get(technician) ?? [technician])];
      planned.set(visitId, { visitId, start: clock.instantOf(stop.start), people });
    }
  return [...planned.values()];
}

/** What the visits say now, as a plan: starts and people as they were set, whether or not they can still be kept. */
export function standingPlan({ problem }: DayProblem): DispatchPlan {
  const stops = new Map<string, { job: string; start: number }[]>();
  const unassigned: { job: string; reason: string }[] = [];
  for (const { id, promised, lockedTo, lockedStart } of problem.jobs) {
    const technician = promised?.technician ?? lockedTo;
    const start = promised?.start ?? lockedStart;
    if (technician === undefined || start === undefined) unassigned.push({ job: id, reason: "not planned yet" });
    else stops.set(technician, [...(stops.get(technician) ?? []), { job: id, start }]);
  }
  const routes = [...stops].map(([technician, own]) => ({ technician, stops: own.sort((a, b) => a.start - b.start) }));
  return { format: "dispatch-plan/1", name: problem.name, routes, unassigned, cost: 0, solveMs: 0 };
}

/** A sentence of a plan with names in the place of ids. */
export function inNames(words: string, names: ReadonlyMap<string, string>): string {
  return words.replace(/[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}/g, (id) => names.get(id) ?? id);
}
