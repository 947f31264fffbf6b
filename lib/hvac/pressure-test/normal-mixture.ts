/** A belief about one number as a weighted sum of normal curves; weights need not add up to 1. */
export interface NormalMixture {
  readonly mean: Float64Array;
  readonly sd: Float64Array;
  readonly weight: Float64Array;
}

export interface NormalPart {
  readonly logWeight: number;
  readonly mean: number;
  readonly sd: number;
}

const NEGLIGIBLE_LOG = 10;
const ALIKE = 0.2;

/** Gathers parts so alike that one with their mean and spread stands for them; what is far less likely is left out. */
export function mixtureOf(parts: readonly NormalPart[]): {
  readonly mixture: NormalMixture;
  readonly logTotal: number;
} {
  let most = Number.NEGATIVE_INFINITY;
  for (const { logWeight } of parts) most = Math.max(most, logWeight);
  const places = new Map<number, number>();
  const weight: number[] = [];
  const sum: number[] = [];
  const squares: number[] = [];
  const offset: number[] = [];
  for (const part of parts) {
    if (!(part.logWeight > most - NEGLIGIBLE_LOG)) continue;
    const size = Math.round(Math.log(part.sd) / ALIKE);
    const key = 1e6 * size + Math.round(part.mean / (ALIKE * Math.exp(ALIKE * size)));
    let at = places.get(key);
    if (at === undefined) {
      at = weight.length;
      places.set(key, at);
      weight.push(0);
      sum.push(0);
      squares.push(0);
      offset.push(part.mean);
    }
    const share = Math.exp(part.logWeight - most);
    const away = part.mean - offset[at]!;
    weight[at]! += share;
    sum[at]! += share * away;
    squares[at]! += share * (away ** 2 + part.sd ** 2);
  }
  const mixture = {
    weight: Float64Array.from(weight),
    mean: Float64Array.from(weight, (total, at) => offset[at]! + sum[at]! / total),
    sd: Float64Array.from(weight, (total, at) => Math.sqrt(squares[at]! / total - (sum[at]! / total) ** 2)),
  };
  return { mixture, logTotal: most + Math.log(weight.reduce((total, share) => total + share, 0)) };
}

/** Chance that the number is below `value`. */
export function chanceBelow({ mean, sd, weight }: NormalMixture, value: number): number {
  let below = 0;
  let total = 0;
  for (let index = 0; index < mean.length; index++) {
    below += weight[index]! * normalBelow((value - mean[index]!) / sd[index]!);
    total += weight[index]!;
  }
  return below / total;
}

/** Chance per unit of the number at `value`. */
export function density({ mean, sd, weight }: NormalMixture, value: number): number {
  let dense = 0;
  let total = 0;
  for (let index = 0; index < mean.length; index++) {
    const away = (value - mean[index]!) / sd[index]!;
    dense += (weight[index]! * Math.exp(-0.5 * away * away)) / sd[index]!;
    total += weight[index]!;
  }
  return dense / total / Math.sqrt(2 * Math.PI);
}

/** The value below which the number lies with this chance; with `floor`, given that it is above that. */
export function quantile(mixture: NormalMixture, chance: number, floor = Number.NEGATIVE_INFINITY): number {
  const { mean, sd } = mixture;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let index = 0; index < mean.length; index++) {
    low = Math.min(low, mean[index]! - 8 * sd[index]!);
    high = Math.max(high, mean[index]! + 8 * sd[index]!);
  }
  low = Math.max(low, floor);
  high = Math.max(high, low);
  const belowFloor = floor === Number.NEGATIVE_INFINITY ? 0 : chanceBelow(mixture, floor);
  if (belowFloor > 1 - 1e-12) return floor;
  const wanted = belowFloor + chance * (1 - belowFloor);
  for (let step = 0; step < 40; step++) {
    const middle = (low + high) / 2;
    if (chanceBelow(mixture, middle) < wanted) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

export function moments({ mean, sd, weight }: NormalMixture): { readonly mean: number; readonly sd: number } {
  let total = 0;
  let sum = 0;
  let squares = 0;
  for (let index = 0; index < mean.length; index++) {
    total += weight[index]!;
    sum += weight[index]! * mean[index]!;
    squares += weight[index]! * (mean[index]! ** 2 + sd[index]! ** 2);
  }
  const centre = sum / total;
  return { mean: centre, sd: Math.sqrt(Math.max(0, squares / total - centre ** 2)) };
}

/** Standard normal distribution function, within 1.2e-7 relative also far out in the tail. @source Press et al., Numerical Recipes in C (1992), 6.2, erfcc */
export function normalBelow(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.5 * x);
  const series =
    -1.26551223 +
    t *
      (1.00002368 +
        t *
          (0.37409196 +
            t *
              (0.09678418 +
                t *
                  (-0.18628806 +
                    t * (0.27886807 + t * (-1.13520398 + t * (1.48851587 + t * (-0.82215223 + t * 0.17087277))))))));
  const upper = 0.5 * t * Math.exp(-x * x + series);
  return z > 0 ? 1 - upper : upper;
}
