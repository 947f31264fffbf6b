import { TIME_TOLERANCE_S } from "./instance";
import type { DispatchJob } from "./problem";
import { Routes } from "./routes";
import { listStartIntervals } from "./start-intervals";

/** What keeps a job from being planned, the first that binds in the order a dispatcher would ask. */
export function explainOpenJob(routes: Routes, job: number): string {
  const { instance } = routes;
  const { problem } = instance;
  const wanted = problem.jobs[job]!;
  const locked = explainLock(routes, job, wanted);
  if (locked !== undefined) return locked;
  const able = problem.technicians.flatMap(({ skills }, r) =>
    wanted.skills.every((skill) => skills.includes(skill)) ? [r] : [],
  );
  const who = nobodyWith(wanted.skills);
  if (problem.technicians.length === 0) return "nobody is at work";
  if (able.length === 0) return `${who} is at work`;
  const allowed = able.filter((r) => instance.allowed[job * instance.technicianCount + r] === 1);
  if (allowed.length === 0) return `${who} is at work who may do it: the others are ruled out for it`;
  const lacking = allowed.map((r) => lackingPart(routes, job, r));
  if (lacking.every((part) => part !== undefined)) return `${who} has enough ${lacking[0]} left on the van`;
  const stocked = allowed.filter((_, i) => lacking[i] === undefined);
  const roomy = stocked.filter((r) => hasRoom(routes, job, r));
  if (roomy.length === 0) return `${who} can take one more visit or its load`;
  return explainTime(routes, job, roomy, who);
}

function explainTime(routes: Routes, job: number, people: readonly number[], who: string): string {
  const { instance } = routes;
  const windows = listWindows(routes, job);
  if (windows.length === 0) return "none of its windows can be met today";
  const alone = new Routes(instance);
  if (!people.some((r) => fitsWindow(alone, job, r, windows)))
    return `${who} can be there ${windowWords(windows)} and finish in time, even with nothing else to do`;
  if (people.some((r) => fitsWindow(routes, job, r, windows))) return "leaving it open costs less than going there";
  const starts = people.flatMap((r) => listStartIntervals(routes, job, r).map(({ fromS }) => fromS));
  const closesS = windows.at(-1)![1];
  const later = starts.filter((startS) => startS > closesS);
  return later.length > 0
    ? `${who} is free before ${clockTime(Math.min(...later))}; its window closes at ${clockTime(closesS)}`
    : `${who} has time left ${windowWords(windows)}`;
}

function fitsWindow(routes: Routes, job: number, r: number, windows: readonly (readonly [number, number])[]): boolean {
  return listStartIntervals(routes, job, r).some(({ fromS, toS }) =>
    windows.some(([from, to]) => Math.max(from, fromS) <= Math.min(to, toS) + TIME_TOLERANCE_S),
  );
}

function explainLock({ instance }: Routes, job: number, wanted: DispatchJob): string | undefined {
  const { lockedTo, lockedStart } = wanted;
  if (lockedTo !== undefined) {
    const locked = instance.problem.technicians.find(({ id }) => id === lockedTo);
    if (locked === undefined) return `locked to ${lockedTo}, who is not at work`;
    const lacking = wanted.skills.filter((skill) => !locked.skills.includes(skill));
    if (lacking.length > 0) return `locked to ${lockedTo}, who does not hold ${andList(lacking)}`;
    if (wanted.excludedTechnicians?.includes(lockedTo)) return `locked to ${lockedTo}, who is ruled out for it`;
  }
  if (lockedStart !== undefined && instance.firstWindow[job] === instance.firstWindow[job + 1])
    return `locked to ${clockTime(lockedStart)}, which lies in none of its windows`;
  return undefined;
}

function lackingPart({ instance, parts }: Routes, job: number, r: number): string | undefined {
  const names = Object.entries(instance.problem.jobs[job]!.parts ?? {}).filter(([, quantity]) => quantity > 0);
  const stock = instance.problem.technicians[r]!.stock;
  if (stock === undefined) return undefined;
  const usedOf = (name: string) => {
    const part = instance.partNames.indexOf(name);
    return parts[r * instance.partCount + part] ?? 0;
  };
  return names.find(([name, quantity]) => usedOf(name) + quantity > (stock[name] ?? 0) + TIME_TOLERANCE_S)?.[0];
}

function hasRoom({ instance, length, load }: Routes, job: number, r: number): boolean {
  return (
    length[r]! < instance.maxJobs[r]! && load[r]! + instance.load[job]! <= instance.capacity[r]! + TIME_TOLERANCE_S
  );
}

function listWindows({ instance }: Routes, job: number): readonly (readonly [number, number])[] {
  const windows: (readonly [number, number])[] = [];
  for (let w = instance.firstWindow[job]!; w < instance.firstWindow[job + 1]!; w++)
    windows.push([instance.windowFromS[w]!, instance.windowToS[w]!]);
  return windows;
}

function nobodyWith(skills: readonly string[]): string {
  return skills.length === 0 ? "nobody" : `nobody with ${andList(skills)}`;
}

function windowWords(windows: readonly (readonly [number, number])[]): string {
  return windows
    .map(([from, to]) => (from === to ? `at ${clockTime(from)}` : `between ${clockTime(from)} and ${clockTime(to)}`))
    .join(" or ");
}

export function andList(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}

/** Seconds since the start of the day as a clock shows them, 08:10. */
function clockTime(seconds: number): string {
  const minutes = Math.floor(seconds / 60 + TIME_TOLERANCE_S);
  const two = (value: number) => String(value).padStart(2, "0");
  return `${two(Math.floor(minutes / 60))}:${two(((minutes % 60) + 60) % 60)}`;
}
