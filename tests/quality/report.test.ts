import { spawnSync } from "node:child_process";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  chartDaysBetween,
  chartJobsBetween,
  estimateRatePrior,
  fisherTwoSidedP,
  jobsToTellDoubledRisk,
  judgeOverDispersion,
  reportQuality,
  STRENGTHS,
} from "@/lib/quality";
import { parseCohort } from "@/lib/quality/schema";
import { drawCount, seeded } from "./random";

const job = (id: string, closed: string, callback: string | null = null, strength = "strong", technician = "t1") => ({
  id,
  closed,
  strength,
  technician,
  stratum: { jobType: "leak_repair" },
  callback,
});
const cohort = (...jobs: object[]) => ({ today: "2026-11-25", windowDays: 90, jobs });
function report(...jobs: object[]) {
  const parsed = parseCohort(cohort(...jobs));
  if (!parsed.ok) throw new Error(parsed.error.message);
  return reportQuality(parsed.value);
}

describe("the window", () => {
  test("a job closed exactly 90 days ago is followed, one of 89 days is not", () => {
    expect(report(job("a", "2026-08-27"), job("b", "2026-08-28")).followed).toBe(1);
  });

  test("a callback on day 90 counts, one on day 91 counts as none", () => {
    const { byStrength } = report(job("a", "2026-01-01", "2026-04-01"), job("b", "2026-01-01", "2026-04-02"));
    expect(byStrength.strong).toMatchObject({ jobs: 2, callbacks: 1, rate: 0.5 });
  });

  test("a young job counts in survival only, until today", () => {
    const { survival, pooledRate } = report(job("a", "2026-11-15"), job("b", "2026-11-05", "2026-11-20"));
    expect(pooledRate).toBeNull();
    expect(survival.sound).toEqual([{ day: 15, atRisk: 1, events: 1, survival: 0, interval95: null }]);
  });

  test("a callback on the day of closing is an event with everybody at risk", () => {
    const { survival } = report(job("a", "2026-01-01", "2026-01-01"), job("b", "2026-01-01"));
    expect(survival.sound[0]).toMatchObject({ day: 0, atRisk: 2, events: 1, survival: 0.5 });
  });
});

describe("what cannot be computed is null", () => {
  test("no jobs at all", () => {
    const empty = report();
    expect(empty.weakAgainstSound).toMatchObject({ riskRatio: null, riskDifference95: null, fisherTwoSidedP: null });
    expect(empty.enough).toEqual({
      verdict: false,
      text: expect.stringMatching(/no job has been followed.* it takes about \d+ to tell/),
    });
  });

  test("no callbacks: no ratio, no shrinking, and the text says so", () => {
    const quiet = report(job("a", "2026-01-01"), job("b", "2026-01-01", null, "weak"));
    expect(quiet.weakAgainstSound).toMatchObject({ riskRatio: null, riskRatio95: null, riskDifference: 0 });
    expect(quiet.technicians[0]).toMatchObject({ shrunkRate: null, shrunk95: null, limits95: [0, 0] });
    expect(quiet.enough.text).toMatch(/^Too little data to say: no callback among 2 followed jobs.* at least \d+\.$/);
  });

  test("one group empty", () => {
    const { weakAgainstSound, survival, enough } = report(job("a", "2026-01-01", "2026-01-09"));
    expect(weakAgainstSound.fisherTwoSidedP).toBeNull();
    expect(survival.logRank).toEqual({ chiSquared: null, degreesOfFreedom: 1, p: null });
    expect(enough.text).toContain("no weakly proven job");
  });

  test("never NaN and never infinite, whatever the cohort", () => {
    const jobs = fc.array(
      fc.record({
        closedDay: fc.integer({ min: 800, max: 1000 }),
        after: fc.option(fc.integer({ min: 0, max: 120 })),
        strength: fc.constantFrom(...STRENGTHS),
        technician: fc.constantFrom("t1", "t2", "t3"),
        kind: fc.constantFrom("a", "b"),
      }),
      { maxLength: 40 },
    );
    const check = fc.property(jobs, (drawn) => {
      const made = drawn.map(({ closedDay, after, strength, technician, kind }, index) => {
        const callbackDay = after === null || closedDay + after > 1000 ? null : closedDay + after;
        return { id: `${index}`, closedDay, callbackDay, strength, technician, stratum: { kind } };
      });
      const answer = reportQuality({ todayDay: 1000, windowDays: 90, jobs: made });
      const backwards = reportQuality({ todayDay: 1000, windowDays: 90, jobs: made.toReversed() });
      expectFinite(answer);
      expect(backwards.weakAgainstSound).toEqual(answer.weakAgainstSound);
      expect(backwards.survival).toEqual(answer.survival);
    });
    fc.assert(check, { numRuns: 300, seed: 8 });
  });
});

function expectFinite(value: unknown, path = "report"): void {
  if (typeof value === "number") expect(Number.isFinite(value), path).toBe(true);
  else if (value !== null && typeof value === "object")
    for (const [key, inner] of Object.entries(value)) expectFinite(inner, `${path}.${key}`);
}

describe("bad input is refused with its path", () => {
  test.each([
    ["a day that is not in the calendar", { ...cohort(), today: "2026-02-30" }, ["today"]],
    ["an unknown strength", cohort(job("a", "2026-01-01", null, "solid")), ["jobs", 0, "strength"]],
    ["an id twice", cohort(job("a", "2026-01-01"), job("a", "2026-01-02")), ["jobs", 1, "id"]],
    ["a callback before closing", cohort(job("a", "2026-01-02", "2026-01-01")), ["jobs", 0, "callback"]],
    ["a callback after today", cohort(job("a", "2026-01-02", "2026-11-26")), ["jobs", 0, "callback"]],
    ["a job closed after today", cohort(job("a", "2026-11-26")), ["jobs", 0, "closed"]],
    ["a window of no days", { ...cohort(), windowDays: 0 }, ["windowDays"]],
    ["a field that is not known", { ...cohort(), window: 30 }, ["window"]],
  ])("%s", (_name, value, path) => {
    expect(parseCohort(value)).toMatchObject({ ok: false, error: { code: "malformed-cohort", path } });
  });

  test("the command then says one error, writes no report and ends with 2", () => {
    const run = (input: string) =>
      spawnSync(process.execPath, ["scripts/bundled.mjs", "scripts/quality.ts"], { input, encoding: "utf8" });
    const bad = run(JSON.stringify(cohort(job("a", "2026-13-01"))));
    expect(bad).toMatchObject({ status: 2, stdout: "" });
    expect(JSON.parse(bad.stderr)).toMatchObject({ error: { path: ["jobs", 0, "closed"] } });
    const broken = run('{"today":"2026-11-25",\n "jobs":[}');
    expect(broken).toMatchObject({ status: 2, stdout: "" });
    expect(JSON.parse(broken.stderr).error.message).toContain("No JSON");
    expect(JSON.parse(run("[1,\n").stderr).error.message).toContain("at line 2, column 1");
    const good = run(JSON.stringify(cohort(job("a", "2026-01-01"))));
    expect(good).toMatchObject({ status: 0, stderr: "" });
    expect(JSON.parse(good.stdout)).toMatchObject({ followed: 1 });
  });
});

describe("people", () => {
  test("who differ no more than chance share one rate; who differ more keep some of their own", () => {
    const alike = Array.from({ length: 10 }, () => ({ jobs: 100, callbacks: 5 }));
    expect(estimateRatePrior(alike)).toEqual({ meanRate: 0.05, weightJobs: Number.POSITIVE_INFINITY });
    const apart = alike.map(({ jobs }, index) => ({ jobs, callbacks: 2 * index }));
    expect(estimateRatePrior(apart)!.weightJobs).toBeLessThan(100);
    expect(judgeOverDispersion(alike)!.overDispersed).toBe(false);
    expect(judgeOverDispersion(apart)!.overDispersed).toBe(true);
  });

  test("no other beta distribution makes the counts likelier", () => {
    // the sheet's seven people of a moment example, spread doubled so that there is something to find
    const people = [4, 10, 1, 18, 4, 0, 6].map((callbacks, i) => ({
      callbacks,
      jobs: [40, 60, 35, 70, 55, 30, 50][i]!,
    }));
    const found = estimateRatePrior(people)!;
    const best = plainLikelihood(people, found.meanRate, found.weightJobs);
    for (const mean of [0.9, 0.99, 1.01, 1.1])
      for (const weight of [0.5, 0.9, 1, 1.1, 2])
        expect(plainLikelihood(people, found.meanRate * mean, found.weightJobs * weight)).toBeLessThan(best);
  });
});

function plainLikelihood(people: readonly { jobs: number; callbacks: number }[], mean: number, weight: number): number {
  let sum = 0;
  for (const { jobs, callbacks } of people)
    for (let draw = 0; draw < jobs; draw++) {
      const own = draw < callbacks ? mean * weight + draw : (1 - mean) * weight + draw - callbacks;
      sum += Math.log(own / (weight + draw));
    }
  return sum;
}

test("exact probability stays the same with the groups exchanged, also in a hundred thousand jobs", () => {
  const first = { jobs: 50_000, callbacks: 2600 };
  const second = { jobs: 200_000, callbacks: 10_000 };
  const p = fisherTwoSidedP(first, second);
  expect(p).toBeGreaterThan(0.05);
  expect(Math.abs(fisherTwoSidedP(second, first) / p - 1)).toBeLessThan(1e-9);
});

test("with the jobs asked for, a doubled risk is told in about 8 of 10 samples", () => {
  const random = seeded(21);
  const jobs = jobsToTellDoubledRisk(0.05, 0.5);
  const half = Math.round(jobs / 2);
  let told = 0;
  for (let run = 0; run < 2000; run++) {
    const a = drawCount(random, half, 0.1);
    const b = drawCount(random, half, 0.05);
    const pooled = (a + b) / (2 * half);
    if (Math.abs(a - b) / half / Math.sqrt((pooled * (1 - pooled) * 2) / half) > 1.959964) told++;
  }
  expect(told / 2000).toBeGreaterThan(0.76);
  expect(told / 2000).toBeLessThan(0.84);
});

describe("rare-event chart", () => {
  test("a run of ordinary gaps stays within the limits, a very long one is called later", () => {
    const ordinary = [12, 25, 8, 31, 17, 22, 5, 40, 19, 27];
    expect(chartJobsBetween(ordinary)!.gaps.every(({ signal }) => signal === null)).toBe(true);
    expect(chartJobsBetween([...ordinary, 400])!.gaps.at(-1)).toEqual({ gap: 400, signal: "later" });
  });

  test("calls about 27 of 10 000 ordinary gaps in days", () => {
    const random = seeded(31);
    const gaps = Array.from({ length: 20_000 }, () => -30 * Math.log1p(-random()));
    const called = chartDaysBetween(gaps)!.gaps.filter(({ signal }) => signal !== null).length;
    expect(called).toBeGreaterThan(30);
    expect(called).toBeLessThan(80);
  });

  test("says nothing without a gap and little with few", () => {
    expect(chartJobsBetween([])).toBeNull();
    expect(chartDaysBetween([])).toBeNull();
    expect(chartJobsBetween([3, 9])!.provisional).toBe(true);
  });
});
