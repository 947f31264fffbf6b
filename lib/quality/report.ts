import type { Cohort, Strength } from "./cohort";
import { type Enough, judgeEnough } from "./enough";
import type { Tally } from "./interval";
import { judgePeople, type PersonFigures } from "./people";
import { estimateRate, type Rate } from "./rates";
import { type AdjustedRatio, estimateAdjustedRatio } from "./strata";
import { estimateSurvival, type LogRank, logRank, type SurvivalPoint } from "./survival";
import { type CohortTallies, tallyCohort } from "./tallies";
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
export function reportQuality(cohort: Cohort): QualityReport {
  return reportTallies(tallyCohort(cohort));
}

/** The same from what was counted up elsewhere. */
export function reportTallies({ byStrength, strata, people, followUps }: CohortTallies): QualityReport {
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
    adjusted: estimateAdjustedRatio(strata),
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

function together(a: Tally, b: Tally): Tally {
  return { jobs: a.jobs + b.jobs, callbacks: a.callbacks + b.callbacks };
}
