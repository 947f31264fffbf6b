import { createRequire } from "node:module";
import { pbinom, pchisq, qbinom } from "lib-r-math.js";
import { expect, test } from "vitest";
import {
  betaQuantile,
  binomialCumulative,
  binomialQuantile,
  chiSquaredUpperTail,
  fisherTwoSidedP,
  incompleteBeta,
} from "@/lib/quality";
import { seeded } from "../quality/random";

/** Two other projects' distributions: jStat, and R's own routines in JavaScript. */
const jstat = createRequire(import.meta.url)("jstat") as {
  ibeta(x: number, a: number, b: number): number;
  chisquare: { cdf(x: number, degreesOfFreedom: number): number };
  hypgeom: { pdf(k: number, total: number, marked: number, drawn: number): number };
};

const apart = (ours: number, theirs: number) => Math.abs(ours - theirs) / Math.max(Math.abs(theirs), 1e-290);

test.each([
  // mpmath with 40 digits
  [1, 80, 0.001, 0.9969996699364222],
  [41, 1000, 0.055, 0.02669751283315578],
  [904, 1000, 0.93, 0.001252598249624863],
  [203, 250_000, 0.001, 0.0012206902441903378],
  [13_399, 250_000, 0.055, 0.0010144883720656437],
])("at most %i of %i at a rate of %f, to twelve digits", (count, jobs, rate, probability) => {
  expect(apart(binomialCumulative(count, jobs, rate), probability)).toBeLessThan(1e-12);
});

test.each([
  // exact fractions of whole numbers
  [300, 5000, 900, 20_000, 1.47319161879336e-5],
  [400, 2000, 400, 8000, 1.864435273470689e-88],
])("%i of %i against %i of %i, exact two-sided probability %f", (a, n, c, m, p) => {
  expect(apart(fisherTwoSidedP({ callbacks: a, jobs: n }, { callbacks: c, jobs: m }), p)).toBeLessThan(1e-11);
});

test("incomplete beta and its inverse agree with jStat's up to a hundred jobs' worth", () => {
  const random = seeded(11);
  for (let run = 0; run < 300; run++) {
    const a = Math.exp(random() * 6 - 1.4);
    const b = Math.exp(random() * 6 - 1.4);
    const level = 0.001 + 0.998 * random();
    const x = betaQuantile(level, a, b);
    if (x > 1 - 1e-6) continue; // 1 - x has no digits left to compare
    const ours = incompleteBeta(x, 1 - x, a, b);
    expect(Math.abs(ours - level), `a ${a}, b ${b}`).toBeLessThan(1e-9);
    expect(Math.abs(ours - jstat.ibeta(x, a, b))).toBeLessThan(1e-7);
  }
});

// R's routines in JavaScript lose digits as counts grow: 7e-10 at 80 jobs, 1e-4 at 250 000, against 40-digit arithmetic.
test("limits of a person are R's up to 250 000 jobs, the sums up to 1000", () => {
  for (const jobs of [1, 7, 80, 1000, 250_000])
    for (const rate of [0.001, 0.055, 0.5, 0.93])
      for (const level of [0.001, 0.025, 0.975, 0.999]) {
        const count = binomialQuantile(level, jobs, rate);
        expect(count, `${jobs} ${rate} ${level}`).toBe(qbinom(level, jobs, rate));
        if (jobs <= 1000)
          expect(apart(binomialCumulative(count, jobs, rate), pbinom(count, jobs, rate))).toBeLessThan(1e-6);
      }
});

test("chi-squared tails agree with R's to 1e-11, jStat's to 1e-10", () => {
  for (const degrees of [1, 2, 7, 60])
    for (const value of [0.01, 0.5, 3.84, 16.8, 90, 700]) {
      const ours = chiSquaredUpperTail(value, degrees);
      expect(apart(ours, pchisq(value, degrees, 0, false)), `${value} at ${degrees}`).toBeLessThan(1e-11);
      expect(Math.abs(1 - ours - jstat.chisquare.cdf(value, degrees))).toBeLessThan(1e-10);
    }
});

test("the exact two-sided probability is the plain sum of jStat's table probabilities", () => {
  const random = seeded(12);
  for (let run = 0; run < 200; run++) {
    const first = { jobs: 1 + Math.floor(40 * random()), callbacks: 0 };
    const second = { jobs: 1 + Math.floor(60 * random()), callbacks: 0 };
    first.callbacks = Math.floor((first.jobs + 1) * random());
    second.callbacks = Math.floor((second.jobs + 1) * random());
    const marked = first.callbacks + second.callbacks;
    const total = first.jobs + second.jobs;
    const probability = (k: number) => jstat.hypgeom.pdf(k, total, marked, first.jobs);
    const bar = probability(first.callbacks) * (1 + 1e-7);
    let sum = 0;
    for (let k = Math.max(0, marked - second.jobs); k <= Math.min(marked, first.jobs); k++)
      if (probability(k) <= bar) sum += probability(k);
    expect(apart(fisherTwoSidedP(first, second), sum), JSON.stringify({ first, second })).toBeLessThan(1e-9);
  }
});
