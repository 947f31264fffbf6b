/** A belief about one number as a weighted sum of normal curves; weights need not add up to 1. */
export interface NormalMixture {
  readonly mean: Float64Array;
  readonly sd: Float64Array;
  readonly weight: Float64Array;
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
  for (let step = 0; step < 50; step++) {
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
