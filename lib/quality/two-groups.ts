import { fisherTwoSidedP } from "./fisher";
import { type Interval, type Tally, Z95 } from "./interval";
import { wilsonInterval } from "./rates";

export interface Comparison {
  readonly weak: Tally;
  readonly sound: Tally;
  readonly riskRatio: number | null;
  readonly riskRatio95: Interval | null;
  readonly riskDifference: number | null;
  readonly riskDifference95: Interval | null;
  readonly fisherTwoSidedP: number | null;
}

/** Weakly against soundly proven jobs. A group without jobs leaves nothing to compare; a ratio needs callbacks below the line. */
export function compareGroups(weak: Tally, sound: Tally): Comparison {
  const compared = weak.jobs > 0 && sound.jobs > 0;
  return {
    weak,
    sound,
    riskRatio: compared && sound.callbacks > 0 ? weak.callbacks / weak.jobs / (sound.callbacks / sound.jobs) : null,
    riskRatio95: compared ? katzInterval(weak, sound) : null,
    riskDifference: compared ? weak.callbacks / weak.jobs - sound.callbacks / sound.jobs : null,
    riskDifference95: compared ? newcombeInterval(weak, sound) : null,
    fisherTwoSidedP: compared ? fisherTwoSidedP(weak, sound) : null,
  };
}

/**
 * Interval of the ratio of two risks on the logarithmic scale; none where a group has no callbacks.
 * @source Katz, Baptista, Azen and Pike, Biometrics 34 (1978) 469, method C
 */
export function katzInterval(first: Tally, second: Tally): Interval | null {
  if (first.callbacks === 0 || second.callbacks === 0) return null;
  const ratio = first.callbacks / first.jobs / (second.callbacks / second.jobs);
  const variance = logRiskVariance(first) + logRiskVariance(second);
  const factor = Math.exp(Z95 * Math.sqrt(variance));
  return [ratio / factor, ratio * factor];
}

function logRiskVariance({ jobs, callbacks }: Tally): number {
  return (jobs - callbacks) / jobs / callbacks;
}

/**
 * Interval of the difference of two risks from their two score intervals.
 * @source Newcombe, Stat. Med. 17 (1998) 873, method 10
 */
export function newcombeInterval(first: Tally, second: Tally): Interval {
  const p = first.callbacks / first.jobs;
  const q = second.callbacks / second.jobs;
  const [pLow, pHigh] = wilsonInterval(first);
  const [qLow, qHigh] = wilsonInterval(second);
  return [p - q - Math.hypot(p - pLow, qHigh - q), p - q + Math.hypot(pHigh - p, q - qLow)];
}
