import { type DispatchJob, type DispatchProblem, type Technician, weightOf } from "./problem";

/** Comparisons of times allow this much, a tenth of what a checker allows. */
export const TIME_TOLERANCE_S = 1e-7;
/** What leaving a locked job open is made to cost, so that no search ever prefers it. */
const LOCKED_OPEN_COST = 1e9;

/**
 * A problem laid out flat for the search. Nodes: jobs first, then each technician's start, then each one's end.
 * A technician with no fixed end gets a place that is no way from anywhere.
 */
export interface Instance {
  readonly problem: DispatchProblem;
  readonly jobCount: number;
  readonly technicianCount: number;
  readonly nodeCount: number;
  /** Times before the first moment anybody is available never occur. */
  readonly earliestS: number;
  readonly place: Int32Array;
  readonly placeCount: number;
  readonly travelS: Float64Array;
  /** What the way costs: seconds by their weight. */
  readonly travelWeight: number;
  readonly serviceS: Float64Array;
  /** Windows of job j are firstWindow[j] up to firstWindow[j + 1]. */
  readonly firstWindow: Int32Array;
  readonly windowFromS: Float64Array;
  readonly windowToS: Float64Array;
  readonly load: Float64Array;
  readonly partCount: number;
  readonly partNames: readonly string[];
  readonly parts: Float64Array;
  readonly needsParts: Uint8Array;
  /** Cost of leaving a job open. */
  readonly openCost: Float64Array;
  /** Starting later than these instants costs the slope beside each (due, released, promised plus tolerance). */
  readonly hingeS: Float64Array;
  readonly hingeSlope: Float64Array;
  /** Starting before this instant costs its slope (promised less tolerance). */
  readonly earlyS: Float64Array;
  readonly earlySlope: Float64Array;
  readonly isTimed: Uint8Array;
  readonly availableS: Float64Array;
  readonly finishS: Float64Array;
  readonly overtimeS: Float64Array;
  readonly overtimeSlope: number;
  readonly hasLunch: Uint8Array;
  readonly lunchFromS: Float64Array;
  readonly lunchToS: Float64Array;
  readonly lunchS: Float64Array;
  readonly capacity: Float64Array;
  readonly maxJobs: Float64Array;
  readonly stock: Float64Array;
  readonly technicianCost: number;
  /** Whether technician r may do job j at all, at j * technicianCount + r, and what that choice alone costs. */
  readonly allowed: Uint8Array;
  readonly choiceCost: Float64Array;
  /** Technicians that are alike in everything share a number. */
  readonly alike: Int32Array;
}

export const HINGES = 3;

export function layOut(problem: DispatchProblem): Instance {
  const { jobs, technicians, objective, travelSeconds } = problem;
  const now = problem.now ?? 0;
  const [n, m, places] = [jobs.length, technicians.length, travelSeconds.length];
  const placeCount = places + 1;
  const travelS = new Float64Array(placeCount * placeCount);
  for (let a = 0; a < places; a++) travelS.set(travelSeconds[a]!, a * placeCount);

  const partNumber = new Map<string, number>();
  for (const { parts } of jobs)
    for (const [name, quantity] of Object.entries(parts ?? {}))
      if (quantity > 0 && !partNumber.has(name)) partNumber.set(name, partNumber.size);
  const partCount = partNumber.size;

  const availableS = Float64Array.from(technicians, ({ from, shift }) =>
    Math.max(from?.time ?? shift[0], shift[0], now),
  );
  const overtimeS = Float64Array.from(technicians, ({ maxOvertime }) => maxOvertime ?? 0);
  const finishS = Float64Array.from(technicians, ({ shift }) => shift[1]);
  const earliestS = Math.min(now, ...availableS) - 1;
  const latestS = technicians.reduce((latest, _, r) => Math.max(latest, finishS[r]! + overtimeS[r]!), earliestS);

  const firstWindow = new Int32Array(n + 1);
  const windows = jobs.flatMap((job, j) => {
    const own = openWindows(job, earliestS, latestS);
    firstWindow[j + 1] = firstWindow[j]! + own.length;
    return own;
  });

  const parts = new Float64Array(n * partCount);
  const stock = new Float64Array(m * partCount).fill(Number.POSITIVE_INFINITY);
  for (const [name, part] of partNumber) {
    jobs.forEach((job, j) => {
      parts[j * partCount + part] = job.parts?.[name] ?? 0;
    });
    technicians.forEach((technician, r) => {
      if (technician.stock !== undefined) stock[r * partCount + part] = technician.stock[name] ?? 0;
    });
  }

  const hingeS = new Float64Array(n * HINGES);
  const hingeSlope = new Float64Array(n * HINGES);
  const earlyS = new Float64Array(n);
  const earlySlope = new Float64Array(n);
  const changeSlope = objective.changeStartPerSecond ?? 0;
  jobs.forEach(({ due, releasedAt, promised, priority }, j) => {
    const tolerance = promised?.tolerance ?? 0;
    const lateSlopes: [number | undefined, number][] = [
      [due, weightOf(objective.latenessPerSecond, priority)],
      [releasedAt, weightOf(objective.responsePerSecond, priority)],
      [promised && promised.start + tolerance, changeSlope],
    ];
    lateSlopes.forEach(([afterS, slope], h) => {
      if (afterS === undefined) return;
      hingeS[j * HINGES + h] = afterS;
      hingeSlope[j * HINGES + h] = slope;
    });
    if (promised === undefined) return;
    earlyS[j] = promised.start - tolerance;
    earlySlope[j] = changeSlope;
  });

  const numberOf = new Map(technicians.map(({ id }, r) => [id, r]));
  const allowed = new Uint8Array(n * m);
  const choiceCost = new Float64Array(n * m);
  const skillSets = technicians.map(({ skills }) => new Set(skills));
  jobs.forEach((job, j) => {
    const locked = job.lockedTo === undefined ? undefined : (numberOf.get(job.lockedTo) ?? -1);
    const preferred = job.preferredTechnicians ?? [];
    technicians.forEach(({ id }, r) => {
      const at = j * m + r;
      const permitted = (locked ?? r) === r && !job.excludedTechnicians?.includes(id);
      allowed[at] = permitted && job.skills.every((skill) => skillSets[r]!.has(skill)) ? 1 : 0;
      if (preferred.length > 0 && !preferred.includes(id)) choiceCost[at]! += objective.preferenceMiss ?? 0;
      if (job.promised && job.promised.technician !== id) choiceCost[at]! += objective.changeTechnician ?? 0;
    });
  });

  return {
    problem,
    jobCount: n,
    technicianCount: m,
    nodeCount: n + 2 * m,
    earliestS,
    place: Int32Array.from([
      ...jobs.map(({ location }) => location),
      ...technicians.map(({ from, start }) => from?.location ?? start),
      ...technicians.map(({ end }) => end ?? places),
    ]),
    placeCount,
    travelS,
    travelWeight: objective.travelPerSecond ?? 1,
    serviceS: Float64Array.from(jobs, ({ duration }) => duration),
    firstWindow,
    windowFromS: Float64Array.from(windows, ([from]) => from),
    windowToS: Float64Array.from(windows, ([, to]) => to),
    load: Float64Array.from(jobs, ({ load }) => load ?? 0),
    partCount,
    partNames: [...partNumber.keys()],
    parts,
    needsParts: Uint8Array.from(jobs, (_, j) => +parts.subarray(j * partCount, (j + 1) * partCount).some((q) => q > 0)),
    openCost: Float64Array.from(jobs, (job) => costOfLeavingOpen(job, problem)),
    hingeS,
    hingeSlope,
    earlyS,
    earlySlope,
    isTimed: Uint8Array.from(
      jobs,
      (_, j) => +(earlySlope[j]! > 0 || hingeSlope.subarray(j * HINGES, (j + 1) * HINGES).some((slope) => slope > 0)),
    ),
    availableS,
    finishS,
    overtimeS,
    overtimeSlope: objective.overtimePerSecond ?? 0,
    hasLunch: Uint8Array.from(technicians, ({ lunch }) => +(lunch != null)),
    lunchFromS: Float64Array.from(technicians, ({ lunch }) => lunch?.window[0] ?? 0),
    lunchToS: Float64Array.from(technicians, ({ lunch }) => lunch?.window[1] ?? 0),
    lunchS: Float64Array.from(technicians, ({ lunch }) => lunch?.duration ?? 0),
    capacity: Float64Array.from(technicians, ({ capacity }) => capacity ?? Number.POSITIVE_INFINITY),
    maxJobs: Float64Array.from(technicians, ({ maxJobs }) => maxJobs ?? Number.POSITIVE_INFINITY),
    stock,
    technicianCost: objective.technicianUsed ?? 0,
    allowed,
    choiceCost,
    alike: numberAlike(technicians, (r) => {
      const column: number[] = [];
      for (let j = 0; j < n; j++) column.push(allowed[j * m + r]!, choiceCost[j * m + r]!);
      return column;
    }),
  };
}

/** The intervals in which a job may start, in order, clipped to the day; none when it can never start. */
function openWindows(job: DispatchJob, earliestS: number, latestS: number): [number, number][] {
  const wide: (readonly [number, number])[] = [[earliestS, latestS]];
  const clipped = (job.windows ?? wide)
    .map(([from, to]): [number, number] => [Math.max(from, earliestS), Math.min(to, latestS)])
    .filter(([from, to]) => from <= to)
    .sort(([a], [b]) => a - b);
  const apart: [number, number][] = [];
  for (const [from, to] of clipped) {
    const last = apart.at(-1);
    if (last !== undefined && from <= last[1]) last[1] = Math.max(last[1], to);
    else apart.push([from, to]);
  }
  const at = job.lockedStart;
  if (at === undefined) return apart;
  const holds = apart.some(([from, to]) => at >= from - TIME_TOLERANCE_S && at <= to + TIME_TOLERANCE_S);
  return holds ? [[at, at]] : [];
}

export function isLocked(job: DispatchJob): boolean {
  return job.lockedTo !== undefined || job.lockedStart !== undefined;
}

function costOfLeavingOpen(job: DispatchJob, { objective }: DispatchProblem): number {
  const promise = job.promised === undefined ? 0 : (objective.dropPromised ?? 0);
  return weightOf(objective.unassigned, job.priority) + promise + (isLocked(job) ? LOCKED_OPEN_COST : 0);
}

function numberAlike(technicians: readonly Technician[], columnOf: (r: number) => readonly number[]): Int32Array {
  const seen = new Map<string, number>();
  return Int32Array.from(technicians, ({ id: _id, skills: _skills, ...rest }, r) => {
    const key = JSON.stringify([rest, columnOf(r).join()]);
    if (!seen.has(key)) seen.set(key, seen.size);
    return seen.get(key)!;
  });
}
