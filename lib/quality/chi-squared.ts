import { logGamma } from "./log-gamma";

/**
 * Probability that a chi-squared variable exceeds `value`.
 * @source Abramowitz and Stegun (1964), 26.4.19 with 6.5.29 (series) and 6.5.31 (continued fraction)
 */
export function chiSquaredUpperTail(value: number, degreesOfFreedom: number): number {
  if (value <= 0) return 1;
  const a = degreesOfFreedom / 2;
  const x = value / 2;
  const front = Math.exp(a * Math.log(x) - x - logGamma(a));
  return x < a + 1 ? 1 - front * lowerSeries(a, x) : front * upperFraction(a, x);
}

function lowerSeries(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; term > sum * Number.EPSILON; n++) {
    term *= x / (a + n);
    sum += term;
  }
  return sum;
}

function upperFraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let value = d;
  for (let n = 1; ; n++) {
    const numerator = -n * (n - a);
    b += 2;
    d = 1 / (numerator * d + b);
    c = b + numerator / c;
    value *= d * c;
    if (Math.abs(d * c - 1) < 2 * Number.EPSILON) return value;
  }
}
