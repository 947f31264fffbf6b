import { chiSquaredUpperTail } from "./chi-squared";
import { type Interval, Z95 } from "./interval";

/** How long a job has been seen, in days, and whether a callback ended that; several alike may stand in one. */
export interface FollowUp {
  readonly day: number;
  readonly event: boolean;
  /** How many jobs this stands for; one where it is left out. */
  readonly jobs?: number;
}

export interface SurvivalPoint {
  readonly day: number;
  readonly atRisk: number;
  readonly events: number;
  readonly survival: number;
  /** Null once nobody is left without a callback. */
  readonly interval95: Interval | null;
}

export interface LogRank {
  readonly chiSquared: number | null;
  readonly degreesOfFreedom: 1;
  readonly p: number | null;
}

/**
 * Share still without a callback after each day that had one; jobs that leave on a day are at risk through it.
 * @source Kaplan and Meier, J. Am. Stat. Assoc. 53 (1958) 457; Greenwood's variance on the log(-log) scale:
 * Kalbfleisch and Prentice, The Statistical Analysis of Failure Time Data (1980), section 1.4
 */
export function estimateSurvival(group: readonly FollowUp[]): SurvivalPoint[] {
  let survival = 1;
  let greenwood = 0;
  return eventDays(group).map(({ day, atRisk, events }) => {
    survival *= (atRisk - events) / atRisk;
    greenwood += events / atRisk / (atRisk - events);
    return { day, atRisk, events, survival, interval95: logLogInterval(survival, greenwood) };
  });
}

function logLogInterval(survival: number, greenwood: number): Interval | null {
  if (survival === 0) return null;
  const log = Math.log(survival);
  const shift = (Z95 * Math.sqrt(greenwood)) / log;
  return [Math.exp(log * Math.exp(-shift)), Math.exp(log * Math.exp(shift))];
}

/**
 * Whether two groups lose their jobs to callbacks at the same pace; null where nothing can be compared.
 * @source Mantel, Cancer Chemother. Rep. 50 (1966) 163; Peto and Peto, J. R. Stat. Soc. A 135 (1972) 185
 */
export function logRank(first: readonly FollowUp[], second: readonly FollowUp[]): LogRank {
  const inFirst = riskCounter(first);
  let observed = 0;
  let expected = 0;
  let variance = 0;
  for (const { day, atRisk, events } of eventDays([...first, ...second])) {
    const own = inFirst(day);
    const share = own.atRisk / atRisk;
    observed += own.events;
    expected += events * share;
    if (atRisk > 1) variance += (events * share * (1 - share) * (atRisk - events)) / (atRisk - 1);
  }
  if (!(variance > 0)) return { chiSquared: null, degreesOfFreedom: 1, p: null };
  const chiSquared = (observed - expected) ** 2 / variance;
  return { chiSquared, degreesOfFreedom: 1, p: chiSquaredUpperTail(chiSquared, 1) };
}

function riskCounter(group: readonly FollowUp[]) {
  const leaving = leavingByDay(group);
  let atRisk = countJobs(group);
  let next = 0;
  return (day: number) => {
    while (next < leaving.length && leaving[next]!.day < day) atRisk -= leaving[next++]!.all;
    const today = leaving[next];
    return { atRisk, events: today?.day === day ? today.events : 0 };
  };
}

function eventDays(group: readonly FollowUp[]) {
  let atRisk = countJobs(group);
  const days: { readonly day: number; readonly atRisk: number; readonly events: number }[] = [];
  for (const { day, all, events } of leavingByDay(group)) {
    if (events > 0) days.push({ day, atRisk, events });
    atRisk -= all;
  }
  return days;
}

function countJobs(group: readonly FollowUp[]): number {
  return group.reduce((sum, { jobs = 1 }) => sum + jobs, 0);
}

function leavingByDay(group: readonly FollowUp[]) {
  const byDay = new Map<number, { day: number; all: number; events: number }>();
  for (const { day, event, jobs = 1 } of group) {
    const row = byDay.get(day) ?? { day, all: 0, events: 0 };
    row.all += jobs;
    if (event) row.events += jobs;
    byDay.set(day, row);
  }
  return [...byDay.values()].sort((a, b) => a.day - b.day);
}
