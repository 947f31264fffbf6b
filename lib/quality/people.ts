import { binomialQuantile } from "./binomial";
import { chiSquaredUpperTail } from "./chi-squared";
import { betaQuantile } from "./incomplete-beta";
import type { Interval, Tally } from "./interval";
import { estimateRatePrior, type RatePrior } from "./prior";

export interface PersonFigures extends Tally {
  readonly technician: string;
  readonly rate: number;
  /** Counts of callbacks that chance alone explains at the pooled rate. */
  readonly limits95: Interval;
  readonly limits998: Interval;
  /** Null where none or all of the jobs came back: there is no spread to learn from. */
  readonly shrunkRate: number | null;
  readonly shrunk95: Interval | null;
}

/** Each person against the limits of chance, in the order of their names: no ranking. */
export function judgePeople(people: ReadonlyMap<string, Tally>): PersonFigures[] {
  const tallies = [...people.values()];
  const prior = estimateRatePrior(tallies);
  const pooled = sum(tallies, "callbacks") / sum(tallies, "jobs");
  return [...people]
    .sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0))
    .map(([technician, { jobs, callbacks }]) => ({
      technician,
      jobs,
      callbacks,
      rate: callbacks / jobs,
      limits95: [binomialQuantile(0.025, jobs, pooled), binomialQuantile(0.975, jobs, pooled)],
      limits998: [binomialQuantile(0.001, jobs, pooled), binomialQuantile(0.999, jobs, pooled)],
      ...shrink({ jobs, callbacks }, prior),
    }));
}

/** Without any spread between people everybody's best estimate is the pooled rate, and the interval has no width. */
export function shrink(
  { jobs, callbacks }: Tally,
  prior: RatePrior | null,
): Pick<PersonFigures, "shrunkRate" | "shrunk95"> {
  if (prior === null) return { shrunkRate: null, shrunk95: null };
  const { meanRate, weightJobs } = prior;
  if (weightJobs === Number.POSITIVE_INFINITY) return { shrunkRate: meanRate, shrunk95: [meanRate, meanRate] };
  const a = callbacks + meanRate * weightJobs;
  const b = jobs - callbacks + (1 - meanRate) * weightJobs;
  return { shrunkRate: a / (a + b), shrunk95: [betaQuantile(0.025, a, b), betaQuantile(0.975, a, b)] };
}

export interface OverDispersion {
  /** How much wider than chance the people spread, as a variance ratio; 1 is chance alone. */
  readonly varianceRatio: number;
  readonly p: number;
  /** The limits of chance are then too narrow: differences in the kind of work are the first suspect. */
  readonly overDispersed: boolean;
}

/**
 * Whether people differ by more than the funnel's limits allow for; null with fewer than two people or one common outcome.
 * The tenth at either end is pulled in first, so that one outlier does not call everybody over-dispersed.
 * @source Spiegelhalter, Stat. Med. 24 (2005) 1185, section 4 (from memory)
 */
export function judgeOverDispersion(tallies: readonly Tally[]): OverDispersion | null {
  const pooled = sum(tallies, "callbacks") / sum(tallies, "jobs");
  if (tallies.length < 2 || !(pooled > 0 && pooled < 1)) return null;
  const deviates = tallies
    .map(({ jobs, callbacks }) => (callbacks / jobs - pooled) / Math.sqrt((pooled * (1 - pooled)) / jobs))
    .sort((a, b) => a - b);
  const cut = Math.floor(0.1 * deviates.length);
  const low = deviates[cut]!;
  const high = deviates[deviates.length - 1 - cut]!;
  const squares = deviates.reduce((total, z) => total + Math.min(Math.max(z, low), high) ** 2, 0);
  const p = chiSquaredUpperTail(squares, tallies.length);
  return { varianceRatio: squares / tallies.length, p, overDispersed: p < 0.05 };
}

function sum(tallies: readonly Tally[], field: keyof Tally): number {
  return tallies.reduce((total, tally) => total + tally[field], 0);
}
