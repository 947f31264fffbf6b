import { incompleteBeta } from "./incomplete-beta";

/** What a search for a quantile forgives, so that a sum which is 0.975 but for rounding counts as 0.975. */
const ROUNDING = 64 * Number.EPSILON;

/** Probability of at most `count` of `trials`. */
export function binomialCumulative(count: number, trials: number, probability: number): number {
  if (count < 0) return 0;
  if (count >= trials || probability === 0) return 1;
  if (probability === 1) return 0;
  return incompleteBeta(1 - probability, probability, trials - count, count + 1);
}

/** Smallest count whose cumulative probability reaches `level`. */
export function binomialQuantile(level: number, trials: number, probability: number): number {
  const enough = level * (1 - ROUNDING);
  let below = -1;
  let reached = trials;
  while (reached - below > 1) {
    const middle = Math.floor((below + reached) / 2);
    if (binomialCumulative(middle, trials, probability) >= enough) reached = middle;
    else below = middle;
  }
  return reached;
}
