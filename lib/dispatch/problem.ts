/** Times are plain numbers, seconds since the start of the day at the site; a window limits the start of the service. */
export type TimeWindow = readonly [first: number, last: number];
export type Priority = 1 | 2 | 3 | 4;
/** One weight for every priority, or one for each; a priority not named weighs nothing. */
export type WeightByPriority = number | Readonly<Record<string, number>>;

export interface Lunch {
  readonly window: TimeWindow;
  readonly duration: number;
}

export interface Technician {
  readonly id: string;
  readonly skills: readonly string[];
  /** Index into the travel table. */
  readonly start: number;
  /** Where the day must end; null: it ends after the last job. */
  readonly end: number | null;
  readonly shift: readonly [begin: number, finish: number];
  readonly maxOvertime?: number | undefined;
  readonly lunch?: Lunch | null | undefined;
  /** What is on the van; absent: unlimited, a part not named: none. */
  readonly stock?: Readonly<Record<string, number>> | undefined;
  readonly capacity?: number | undefined;
  readonly maxJobs?: number | undefined;
  /** Where and when this person is free, when the day is under way. */
  readonly from?: { readonly location: number; readonly time: number } | undefined;
}

export interface PromisedStart {
  readonly technician: string;
  readonly start: number;
  readonly tolerance?: number | undefined;
}

export interface DispatchJob {
  readonly id: string;
  readonly location: number;
  readonly duration: number;
  readonly skills: readonly string[];
  readonly windows?: readonly TimeWindow[] | undefined;
  readonly due?: number | undefined;
  readonly releasedAt?: number | undefined;
  readonly priority: number;
  readonly parts?: Readonly<Record<string, number>> | undefined;
  readonly load?: number | undefined;
  readonly lockedTo?: string | undefined;
  readonly lockedStart?: number | undefined;
  readonly preferredTechnicians?: readonly string[] | undefined;
  readonly excludedTechnicians?: readonly string[] | undefined;
  readonly promised?: PromisedStart | undefined;
  readonly kind?: string | undefined;
}

export interface Objective {
  readonly travelPerSecond?: number | undefined;
  readonly technicianUsed?: number | undefined;
  readonly unassigned?: WeightByPriority | undefined;
  readonly latenessPerSecond?: WeightByPriority | undefined;
  readonly responsePerSecond?: WeightByPriority | undefined;
  readonly overtimePerSecond?: number | undefined;
  readonly preferenceMiss?: number | undefined;
  readonly changeTechnician?: number | undefined;
  readonly changeStartPerSecond?: number | undefined;
  readonly dropPromised?: number | undefined;
}

export interface DispatchProblem {
  readonly name: string;
  readonly now?: number | undefined;
  readonly timeLimitMs?: number | undefined;
  /** travelSeconds[a][b] from a to b; not symmetric. */
  readonly travelSeconds: readonly (readonly number[])[];
  readonly technicians: readonly Technician[];
  readonly jobs: readonly DispatchJob[];
  readonly objective: Objective;
}

export interface JobStop {
  readonly job: string;
  readonly start: number;
}
export interface LunchStop {
  readonly lunch: true;
  readonly start: number;
}
export type Stop = JobStop | LunchStop;

export interface Route {
  readonly technician: string;
  readonly stops: readonly Stop[];
}

export interface OpenJob {
  readonly job: string;
  readonly reason: string;
}

export interface DispatchPlan {
  readonly format: "dispatch-plan/1";
  readonly name: string;
  readonly routes: readonly Route[];
  readonly unassigned: readonly OpenJob[];
  readonly cost: number;
  readonly solveMs: number;
}

export function weightOf(weight: WeightByPriority | undefined, priority: number): number {
  if (weight === undefined) return 0;
  return typeof weight === "number" ? weight : (weight[String(priority)] ?? 0);
}
