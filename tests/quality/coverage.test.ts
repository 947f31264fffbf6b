import { describe, expect, test } from "vitest";
import {
  betaQuantile,
  binomialCumulative,
  estimateAdjustedRatio,
  estimateSurvival,
  type Interval,
  judgePeople,
  katzInterval,
  logRank,
  newcombeInterval,
  wilsonInterval,
} from "@/lib/quality";
import { drawCount, seeded } from "./random";

const RUNS = 10_000;

function held(seed: number, truth: number, draw: (random: () => number) => Interval | null): number {
  const random = seeded(seed);
  let inside = 0;
  for (let run = 0; run < RUNS; run++) {
    const interval = draw(random);
    if (interval !== null && interval[0] <= truth && truth <= interval[1]) inside++;
  }
  return inside / RUNS;
}

function expectPromised(share: number) {
  expect(share).toBeGreaterThanOrEqual(0.93);
  expect(share).toBeLessThanOrEqual(0.97);
}

const sample = (random: () => number, jobs: number, risk: number) => ({
  jobs,
  callbacks: drawCount(random, jobs, risk),
});

describe(`the truth lies in 93 to 97 of 100 intervals, ${RUNS} runs`, () => {
  test("rates of 2 to 30 of 100, which is where the score interval keeps its promise: on average", () => {
    const random = seeded(1);
    let inside = 0;
    for (let run = 0; run < RUNS; run++) {
      const risk = 0.02 + 0.28 * random();
      const [low, high] = wilsonInterval(sample(random, 100, risk));
      if (low <= risk && risk <= high) inside++;
    }
    expectPromised(inside / RUNS);
  });

  test("risk ratio of 2", () => {
    expectPromised(held(2, 2, (random) => katzInterval(sample(random, 200, 0.16), sample(random, 300, 0.08))));
  });

  test("risk difference of 0.08", () => {
    expectPromised(held(3, 0.08, (random) => newcombeInterval(sample(random, 120, 0.16), sample(random, 200, 0.08))));
  });

  test("risk ratio of 2 within three strata of very different risk", () => {
    const risks = [0.04, 0.1, 0.2];
    const share = held(4, 2, (random) => {
      const strata = risks.map((risk, index) => ({
        weak: sample(random, 40 + 40 * index, 2 * risk),
        sound: sample(random, 160 - 30 * index, risk),
      }));
      return estimateAdjustedRatio(strata).interval95;
    });
    expectPromised(share);
  });

  test("survival to day 60 with jobs leaving early", () => {
    const truth = Math.exp(-60 / 200);
    const share = held(5, truth, (random) => {
      const group = Array.from({ length: 100 }, () => {
        const fails = -200 * Math.log1p(-random());
        const leaves = 30 + 120 * random();
        return { day: Math.min(fails, leaves), event: fails <= leaves };
      });
      return estimateSurvival(group).findLast(({ day }) => day <= 60)?.interval95 ?? null;
    });
    expectPromised(share);
  });
});

test.each([
  // exact coverage, summed over all counts with SciPy 1.17.1
  [0.05, 200, 0.9671521638567253],
  [0.1, 80, 0.9625675183811351],
  [0.4, 60, 0.9528868592636719],
])("at a rate of %f among %i jobs the score interval holds the truth with probability %f", (risk, jobs, printed) => {
  let coverage = 0;
  for (let callbacks = 0; callbacks <= jobs; callbacks++) {
    const [low, high] = wilsonInterval({ jobs, callbacks });
    if (low <= risk && risk <= high)
      coverage += binomialCumulative(callbacks, jobs, risk) - binomialCumulative(callbacks - 1, jobs, risk);
  }
  expect(Math.abs(coverage - printed)).toBeLessThan(1e-12);
});

test("with plenty of people, 93 to 97 of 100 true rates lie in their shrunk intervals", () => {
  const random = seeded(6);
  let inside = 0;
  const cohorts = 40;
  const size = 250;
  for (let cohort = 0; cohort < cohorts; cohort++) {
    const truths = new Map<string, number>();
    const people = new Map<string, { jobs: number; callbacks: number }>();
    for (let index = 0; index < size; index++) {
      const truth = betaQuantile(random() * 0.999998 + 1e-6, 4, 46);
      truths.set(`p${index}`, truth);
      people.set(`p${index}`, sample(random, 30 + 10 * (index % 8), truth));
    }
    for (const { technician, shrunk95 } of judgePeople(people)) {
      const truth = truths.get(technician)!;
      if (shrunk95![0] <= truth && truth <= shrunk95![1]) inside++;
    }
  }
  expectPromised(inside / (cohorts * size));
});

test("log-rank calls two like groups different in 3 to 7 of 100 comparisons", () => {
  const random = seeded(7);
  const group = () =>
    Array.from({ length: 60 }, () => {
      const day = Math.ceil(-150 * Math.log1p(-random()));
      return { day: Math.min(day, 90), event: day <= 90 };
    });
  let different = 0;
  const comparisons = 3000;
  for (let run = 0; run < comparisons; run++) if (logRank(group(), group()).p! < 0.05) different++;
  expect(different / comparisons).toBeGreaterThan(0.03);
  expect(different / comparisons).toBeLessThan(0.07);
});
