import { type Cohort, type CohortJob, STRENGTHS, type Strength } from "./cohort";
import { type Enough, judgeEnough } from "./enough";
import type { Tally } from "./interval";
import { judgePeople, type PersonFigures } from "./people";
import { estimateRate, type Rate } from "./rates";
import { type AdjustedRatio, estimateAdjustedRatio } from "./strata";
import { estimateSurvival, type FollowUp, type LogRank, logRank, type SurvivalPoint } from "./survival";
import { type Comparison, compareGroups } from "./two-groups";

export interface QualityReport {
  readonly followed: number;
  readonly byStrength: Readonly<Record<Strength, Rate>>;
  readonly weakAgainstSound: Comparison;
  readonly adjusted: AdjustedRatio;
  readonly survival: {
    readonly sound: readonly SurvivalPoint[];
    readonly weak: readonly SurvivalPoint[];
    readonly logRank: LogRank;
  };
  readonly technicians: readonly PersonFigures[];
  readonly pooledRate: number | null;
  readonly enough: Enough;
}

/**
 * Every quality figure of a cohort, unrounded. What cannot be computed is null.
 *
 * Rates, ratios and people count only jobs followed for the whole window, so that young jobs do not make them look
 * better; survival counts all, censored at today or the window's end.
 */
export function reportQuality({ todayDay, windowDays, jobs }: Cohort): QualityReport {
  const byStrength = Object.fromEntries(STRENGTHS.map((strength) => [strength, emptyTally()])) as Record<
    Strength,
    Counter
  >;
  const strata = new Map<string, { weak: Counter; sound: Counter }>();
  const people = new Map<string, Counter>();
  const followUps: Record<"weak" | "sound", FollowUp[]> = { weak: [], sound: [] };
  for (const job of jobs) {
    const group = groupOf(job);
    const seenDays = Math.min(todayDay - job.closedDay, windowDays);
    const callbackAfter = job.callbackDay === null ? Number.POSITIVE_INFINITY : job.callbackDay - job.closedDay;
    const event = callbackAfter <= seenDays;
    followUps[group].push({ day: event ? callbackAfter : seenDays, event });
    if (todayDay - job.closedDay < windowDays) continue;
    count(byStrength[job.strength], event);
    count(entry(strata, stratumKey(job), () => ({ weak: emptyTally(), sound: emptyTally() }))[group], event);
    count(entry(people, job.technician, emptyTally), event);
  }
  const comparison = compareGroups(
    together(byStrength.weak, byStrength.none),
    together(byStrength.strong, byStrength.fair),
  );
  const all = together(comparison.weak, comparison.sound);
  return {
    followed: all.jobs,
    byStrength: {
      strong: estimateRate(byStrength.strong),
      fair: estimateRate(byStrength.fair),
      weak: estimateRate(byStrength.weak),
      none: estimateRate(byStrength.none),
    },
    weakAgainstSound: comparison,
    adjusted: estimateAdjustedRatio([...strata.values()]),
    survival: {
      sound: estimateSurvival(followUps.sound),
      weak: estimateSurvival(followUps.weak),
      logRank: logRank(followUps.weak, followUps.sound),
    },
    technicians: judgePeople(people),
    pooledRate: all.jobs === 0 ? null : all.callbacks / all.jobs,
    enough: judgeEnough(comparison),
  };
}

interface Counter {
  jobs: number;
  callbacks: number;
}

function emptyTally(): Counter {
  return { jobs: 0, callbacks: 0 };
}

function count(counter: Counter, event: boolean): void {
  counter.jobs += 1;
  if (event) counter.callbacks += 1;
}

function entry<V>(map: Map<string, V>, key: string, make: () => V): V {
  const known = map.get(key);
  if (known !== undefined) return known;
  const made = make();
  map.set(key, made);
  return made;
}

function together(a: Tally, b: Tally): Tally {
  return { jobs: a.jobs + b.jobs, callbacks: a.callbacks + b.callbacks };
}

function groupOf({ strength }: CohortJob): "weak" | "sound" {
  return strength === "weak" || strength === "none" ? "weak" : "sound";
}

/** The same combination of values is the same stratum in whatever order its names were written. */
function stratumKey({ stratum }: CohortJob): string {
  const names = Object.keys(stratum).sort();
  return JSON.stringify(names.concat(names.map((name) => stratum[name]!)));
}
