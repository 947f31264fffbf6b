import { logPower } from "./log-power";

const TINY = 1e-300;
const MOST_STEPS = 100_000;

/**
 * Regularized incomplete beta function I_x(a, b), for a, b > 0; y = 1 - x is given apart.
 * @source continued fraction: NIST Digital Library of Mathematical Functions, 8.17.22; evaluated by Lentz's method
 */
export function incompleteBeta(x: number, y: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (y <= 0) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - (front(x, y, a, b) / b) * fraction(y, b, a);
  return (front(x, y, a, b) / a) * fraction(x, a, b);
}

/** The x below which a beta distribution holds `level` of its mass, for 0 < level < 1. */
export function betaQuantile(level: number, a: number, b: number): number {
  // In log odds the slope of I is front(), and neither end of the unit interval runs out of digits.
  let low = -745;
  let high = 745;
  let logOdds = Math.min(Math.max(Math.log(a / b), low), high);
  for (let step = 0; step < 200; step++) {
    const x = 1 / (1 + Math.exp(-logOdds));
    const y = 1 / (1 + Math.exp(logOdds));
    const excess = incompleteBeta(x, y, a, b) - level;
    if (excess > 0) high = logOdds;
    else low = logOdds;
    const newton = logOdds - excess / front(x, y, a, b);
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - logOdds) <= 1e-15 * Math.max(1, Math.abs(next))) return 1 / (1 + Math.exp(-next));
    logOdds = next;
  }
  return 1 / (1 + Math.exp(-logOdds));
}

/** x^a y^b / B(a, b). */
function front(x: number, y: number, a: number, b: number): number {
  return ((a * b) / (a + b)) * Math.exp(logPower(a, b, x, y));
}

function fraction(x: number, a: number, b: number): number {
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let value = d;
  for (let m = 1; m < MOST_STEPS; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    value *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    value *= d * c;
    if (Math.abs(d * c - 1) < 2 * Number.EPSILON) return value;
  }
  throw new Error(`The incomplete beta function did not settle at x ${x}, a ${a}, b ${b}.`);
}

function away(value: number): number {
  return Math.abs(value) < TINY ? TINY : value;
}
