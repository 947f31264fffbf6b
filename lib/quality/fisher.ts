import type { Tally } from "./interval";
import { logPower } from "./log-power";

/** Tables this much more probable than the observed one, relatively, still count as no more probable. */
const TOLERANCE = 1e-7;

/**
 * Two-sided exact probability: all tables with the same margins that are no more probable than the observed one.
 *
 * Summed from the observed table outwards in ratios, so that a hundred thousand jobs and a probability of 1e-200 cost nothing.
 * @source Fisher, The Design of Experiments (1935); the two-sided rule of R's fisher.test
 */
export function fisherTwoSidedP(first: Tally, second: Tally): number {
  const margins: Margins = {
    drawn: first.jobs,
    left: second.jobs,
    marked: first.callbacks + second.callbacks,
  };
  const lowest = Math.max(0, margins.marked - margins.left);
  const highest = Math.min(margins.marked, margins.drawn);
  const observed = logProbability(first.callbacks, margins);
  const bar = observed + Math.log1p(TOLERANCE);
  const mode = Math.floor(((margins.drawn + 1) * (margins.marked + 1)) / (margins.drawn + margins.left + 2));
  const peak = Math.min(Math.max(mode, lowest), highest);
  if (logProbability(peak, margins) <= bar) return 1;
  const lower = lastWithin(lowest, peak, (count) => logProbability(count, margins) <= bar);
  const upper = lastWithin(highest, peak, (count) => logProbability(count, margins) <= bar);
  const tails =
    (lower === null ? 0 : tailFrom(lower, lowest, -1, margins)) +
    (upper === null ? 0 : tailFrom(upper, highest, 1, margins));
  return Math.min(1, tails);
}

interface Margins {
  readonly drawn: number;
  readonly left: number;
  readonly marked: number;
}

/** The count nearest to `peak` that is still improbable, sought from the far `end`; null if even the end is not. */
function lastWithin(end: number, peak: number, improbable: (count: number) => boolean): number | null {
  if (!improbable(end)) return null;
  let within = end;
  let beyond = peak;
  while (Math.abs(beyond - within) > 1) {
    const middle = Math.trunc((within + beyond) / 2);
    if (improbable(middle)) within = middle;
    else beyond = middle;
  }
  return within;
}

/** Mass from `start` outwards to `end`. */
function tailFrom(start: number, end: number, step: 1 | -1, margins: Margins): number {
  let term = 1;
  let sum = 1;
  for (let count = start; count !== end && term > sum * 1e-18; count += step) {
    term *= step === 1 ? nextRatio(count, margins) : 1 / nextRatio(count - 1, margins);
    sum += term;
  }
  return Math.exp(logProbability(start, margins)) * sum;
}

/** Probability of count + 1 over that of count. */
function nextRatio(count: number, { drawn, left, marked }: Margins): number {
  return ((drawn - count) / (count + 1)) * ((marked - count) / (left - marked + count + 1));
}

function logProbability(count: number, { drawn, left, marked }: Margins): number {
  const total = drawn + left;
  const share = marked / total;
  const rest = (total - marked) / total;
  return (
    logPower(count, drawn - count, share, rest) +
    logPower(marked - count, left - marked + count, share, rest) -
    logPower(marked, total - marked, share, rest)
  );
}
