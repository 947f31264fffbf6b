import { describe, expect, test } from "vitest";
import {
  binomialQuantile,
  chiSquaredUpperTail,
  estimateAdjustedRatio,
  estimateSurvival,
  fisherTwoSidedP,
  logRank,
  newcombeInterval,
  wilsonInterval,
} from "@/lib/quality";

const tally = (callbacks: number, jobs: number) => ({ callbacks, jobs });

describe("score interval of a share", () => {
  test.each([
    // Newcombe, Stat. Med. 17 (1998) 857, Table I (from memory; recomputed with R 4.2.2); half a unit of the last digit
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
    [23, 60, 0.2709, 0.5098], // computed with R 4.2.2
  ])("%i of %i is %f to %f", (callbacks, jobs, low, high) => {
    const [ourLow, ourHigh] = wilsonInterval({ callbacks, jobs });
    expect(Math.abs(ourLow - low)).toBeLessThanOrEqual(5e-5);
    expect(Math.abs(ourHigh - high)).toBeLessThanOrEqual(5e-5);
  });
});

test("difference of 56/70 and 48/80 is 0.0524 to 0.3339", () => {
  // Newcombe, Stat. Med. 17 (1998) 873, Table II, method 10 (from memory; recomputed)
  const [low, high] = newcombeInterval(tally(56, 70), tally(48, 80));
  expect(Math.abs(low - 0.0524)).toBeLessThanOrEqual(5e-5);
  expect(Math.abs(high - 0.3339)).toBeLessThanOrEqual(5e-5);
});

test.each([
  // Fisher, The Design of Experiments (1935): 34/70 by counting
  ["tea tasting", tally(3, 4), tally(1, 4), 34 / 70, 1e-13],
  // Fisher's twins and convictions; computed with R 4.2.2 fisher.test
  ["twins", tally(2, 17), tally(10, 13), 0.0005367241, 1e-6],
])("exact two-sided probability: %s", (_name, first, second, p, relative) => {
  expect(Math.abs(fisherTwoSidedP(first, second) / p - 1)).toBeLessThan(relative);
});

const followUps = (times: string) =>
  times.split(" ").map((time) => ({ day: Number.parseInt(time, 10), event: !time.endsWith("+") }));
// Freireich et al., Blood 21 (1963) 699: weeks in remission
const treated = followUps("6 6 6 6+ 7 9+ 10 10+ 11+ 13 16 17+ 19+ 20+ 22 23 25+ 32+ 32+ 34+ 35+");
const placebo = followUps("1 1 2 2 3 4 4 5 5 8 8 8 8 11 11 12 12 15 17 22 23");

test.each([
  // computed with R 4.2.2, survival 3.5-3; day, at risk, events, survival
  [6, 21, 3, 0.857143],
  [7, 17, 1, 0.806723],
  [10, 15, 1, 0.752941],
  [13, 12, 1, 0.690196],
  [16, 11, 1, 0.627451],
  [22, 7, 1, 0.537815],
  [23, 6, 1, 0.448179],
])("remission at week %i: %i at risk, %i lost, survival %f", (day, atRisk, events, survival) => {
  const point = estimateSurvival(treated).find((found) => found.day === day);
  expect(point).toMatchObject({ atRisk, events });
  expect(Math.abs(point!.survival - survival)).toBeLessThanOrEqual(5e-7);
});

test.each([
  // Greenwood's standard error, computed with R 4.2.2, survival 3.5-3; the interval on the log(-log) scale turned round
  [6, 0.857143, 0.0763604],
  [7, 0.806723, 0.0869353],
  [10, 0.752941, 0.0963497],
  [13, 0.690196, 0.1068147],
  [16, 0.627451, 0.1140539],
  [22, 0.537815, 0.1282338],
  [23, 0.448179, 0.1345915],
])("at week %i, survival %f, the standard error is %f", (day, survival, standardError) => {
  const [low, high] = estimateSurvival(treated).find((point) => point.day === day)!.interval95!;
  const logLog = (share: number) => Math.log(-Math.log(share));
  const ours = ((logLog(low) - logLog(high)) / 2 / 1.959964) * survival * -Math.log(survival);
  expect(Math.abs(ours - standardError)).toBeLessThan(2e-6);
});

test("log-rank of treated and placebo is 16.7929, p 4.169e-5", () => {
  // computed with R 4.2.2, survival 3.5-3 survdiff
  const { chiSquared, p } = logRank(treated, placebo);
  expect(Math.abs(chiSquared! - 16.7929)).toBeLessThanOrEqual(5e-5);
  expect(Math.abs(p! - 4.169e-5)).toBeLessThanOrEqual(5e-9);
});

test("chi-squared tails: 3.841459 and 18.30704 leave 5 % at 1 and 10 degrees", () => {
  // Abramowitz and Stegun (1964), Table 26.8
  expect(Math.abs(chiSquaredUpperTail(3.841459, 1) - 0.05)).toBeLessThan(1e-7);
  expect(Math.abs(chiSquaredUpperTail(18.30704, 10) - 0.05)).toBeLessThan(1e-7);
});

test.each([
  // Spiegelhalter, Stat. Med. 24 (2005) 1185: interpolated limits as shares at 8 % (computed) lie below the whole count
  [50, 0.025, 0.00284],
  [50, 0.975, 0.15385],
  [50, 0.999, 0.2114],
  [100, 0.025, 0.0254],
  [100, 0.975, 0.13217],
  [100, 0.001, 0.00366],
  [100, 0.999, 0.16953],
  [200, 0.025, 0.04176],
  [200, 0.975, 0.11719],
  [200, 0.001, 0.02502],
  [200, 0.999, 0.14262],
])("funnel limit of %i jobs at %f is the whole count just above the interpolated one", (jobs, level, limit) => {
  expect(binomialQuantile(level, jobs, 0.08)).toBe(Math.ceil(limit * jobs));
});

test("two strata with one risk ratio keep it", () => {
  // by hand: 2/10 against 1/10 and 8/20 against 4/20 are both 2
  const { mantelHaenszelRiskRatio } = estimateAdjustedRatio([
    { weak: tally(2, 10), sound: tally(1, 10) },
    { weak: tally(8, 20), sound: tally(4, 20) },
  ]);
  expect(mantelHaenszelRiskRatio).toBeCloseTo(2, 14);
});
