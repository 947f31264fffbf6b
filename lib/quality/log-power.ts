import { stirlingError } from "./log-gamma";

/**
 * Logarithm of (a+b)!/(a! b!) x^a y^b for any a, b >= 0, with y = 1 - x given apart so that neither loses digits.
 *
 * The big terms cancel on paper, not in the machine, so hundreds of thousands of trials cost no precision.
 * @source Loader, Fast and accurate computation of binomial probabilities (2000), sections 2 and 3
 */
export function logPower(a: number, b: number, x: number, y: number): number {
  const total = a + b;
  if (a === 0) return b === 0 ? 0 : b * logOf(y, x);
  if (b === 0) return a * logOf(x, y);
  const correction = stirlingError(total) - stirlingError(a) - stirlingError(b);
  return correction - deviance(a, total * x) - deviance(b, total * y) + 0.5 * Math.log(total / (2 * Math.PI * a) / b);
}

function logOf(share: number, rest: number): number {
  return rest < 0.5 ? Math.log1p(-rest) : Math.log(share);
}

/** x log(x/mean) + mean - x, without the cancellation near x = mean. */
function deviance(x: number, mean: number): number {
  if (Math.abs(x - mean) >= 0.1 * (x + mean)) return x * Math.log(x / mean) + mean - x;
  const ratio = (x - mean) / (x + mean);
  let sum = (x - mean) * ratio;
  let power = 2 * x * ratio;
  for (let j = 1; ; j++) {
    power *= ratio * ratio;
    const next = sum + power / (2 * j + 1);
    if (next === sum) return next;
    sum = next;
  }
}
