import type { Tally } from "./interval";
import { digammaRise, logRelativeRise } from "./log-gamma";

/** How rates differ between people: a beta distribution; `weightJobs` jobs' worth of evidence, infinite where no spread shows. */
export interface RatePrior {
  readonly meanRate: number;
  readonly weightJobs: number;
}

const LOG_WEIGHTS = Array.from({ length: 61 }, (_, index) => -9 + 0.5 * index);

/**
 * The beta distribution under which everybody's counts together are most likely; null where none or all jobs came back.
 *
 * Where the people differ no more than chance makes them, the likeliest spread is none: weight infinite, mean the pooled rate.
 * @source beta-binomial likelihood: Skellam, J. R. Stat. Soc. B 10 (1948) 257; Griffiths, Biometrics 29 (1973) 637
 */
export function estimateRatePrior(people: readonly Tally[]): RatePrior | null {
  const jobs = people.reduce((sum, person) => sum + person.jobs, 0);
  const callbacks = people.reduce((sum, person) => sum + person.callbacks, 0);
  if (callbacks === 0 || callbacks === jobs) return null;
  const pooled = callbacks / jobs;
  const likelihoods = LOG_WEIGHTS.map((logWeight) => {
    const weight = Math.exp(logWeight);
    return logLikelihood(people, likeliestMean(people, weight, pooled), weight);
  });
  const best = likelihoods.indexOf(Math.max(...likelihoods));
  const withoutSpread = callbacks * Math.log(pooled) + (jobs - callbacks) * Math.log1p(-pooled);
  const noise = 1e-12 * Math.abs(withoutSpread);
  if (!(likelihoods[best]! > withoutSpread + noise)) return { meanRate: pooled, weightJobs: Number.POSITIVE_INFINITY };
  const weightJobs = Math.exp(peakBetween(people, pooled, LOG_WEIGHTS[best]! - 0.5, LOG_WEIGHTS[best]! + 0.5));
  return { meanRate: likeliestMean(people, weightJobs, pooled), weightJobs };
}

function peakBetween(people: readonly Tally[], pooled: number, from: number, to: number): number {
  let low = from;
  let high = to;
  while (high - low > 1e-13 * Math.max(1, Math.abs(low))) {
    const middle = (low + high) / 2;
    const weight = Math.exp(middle);
    if (middle <= low || middle >= high) break;
    if (slopeByWeight(people, likeliestMean(people, weight, pooled), weight) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The likelihood is concave in the mean, so its slope has one zero. */
function likeliestMean(people: readonly Tally[], weight: number, start: number): number {
  let low = 0;
  let high = 1;
  let mean = start;
  for (let step = 0; step < 100; step++) {
    const slope = slopeByMean(people, mean, weight);
    if (slope > 0) low = mean;
    else high = mean;
    const probe = mean * (1 + 1e-6);
    const curvature = (slopeByMean(people, probe, weight) - slope) / (probe - mean);
    const newton = mean - slope / curvature;
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - mean) <= 1e-14 * mean) return next;
    mean = next;
  }
  return mean;
}

function logLikelihood(people: readonly Tally[], mean: number, weight: number): number {
  let sum = 0;
  for (const { jobs, callbacks } of people)
    sum +=
      callbacks * Math.log(mean) +
      (jobs - callbacks) * Math.log1p(-mean) +
      logRelativeRise(mean * weight, callbacks) +
      logRelativeRise((1 - mean) * weight, jobs - callbacks) -
      logRelativeRise(weight, jobs);
  return sum;
}

function slopeByMean(people: readonly Tally[], mean: number, weight: number): number {
  let sum = 0;
  for (const { jobs, callbacks } of people)
    sum += digammaRise(mean * weight, callbacks) - digammaRise((1 - mean) * weight, jobs - callbacks);
  return sum;
}

function slopeByWeight(people: readonly Tally[], mean: number, weight: number): number {
  let sum = 0;
  for (const { jobs, callbacks } of people)
    sum +=
      mean * digammaRise(mean * weight, callbacks) +
      (1 - mean) * digammaRise((1 - mean) * weight, jobs - callbacks) -
      digammaRise(weight, jobs);
  return sum;
}
