import { type Interval, type Tally, Z95 } from "./interval";

export interface Stratum {
  readonly weak: Tally;
  readonly sound: Tally;
}

export interface AdjustedRatio {
  readonly strata: number;
  readonly mantelHaenszelRiskRatio: number | null;
  readonly interval95: Interval | null;
}

/**
 * Risk ratio of weak to sound proof within like jobs; strata with one group empty are counted but weigh nothing.
 * @source Mantel and Haenszel, J. Natl. Cancer Inst. 22 (1959) 719; interval: Greenland and Robins, Biometrics 41 (1985) 55, eq. 13
 */
export function estimateAdjustedRatio(strata: readonly Stratum[]): AdjustedRatio {
  let above = 0;
  let below = 0;
  let spread = 0;
  for (const { weak, sound } of strata) {
    const total = weak.jobs + sound.jobs;
    if (total === 0) continue;
    const events = weak.callbacks + sound.callbacks;
    above += weak.callbacks * (sound.jobs / total);
    below += sound.callbacks * (weak.jobs / total);
    spread += events * (weak.jobs / total) * (sound.jobs / total) - (weak.callbacks / total) * sound.callbacks;
  }
  if (below === 0) return { strata: strata.length, mantelHaenszelRiskRatio: null, interval95: null };
  const ratio = above / below;
  if (above === 0) return { strata: strata.length, mantelHaenszelRiskRatio: ratio, interval95: null };
  const factor = Math.exp(Z95 * Math.sqrt(Math.max(0, spread) / above / below));
  return {
    strata: strata.length,
    mantelHaenszelRiskRatio: ratio,
    interval95: [ratio / factor, ratio * factor],
  };
}
