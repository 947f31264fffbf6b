import { expect, test } from "vitest";
import { playRuns } from "./play-runs";
import { seedsToPlay } from "./seeds";
import { tallyOf } from "./tally";

test(
  "whatever fails on the way, what was called saved here arrives once and everybody sees the same job",
  async () => {
    const startedAt = performance.now();
    const reports = await playRuns(seedsToPlay());
    console.info(tallyOf(reports, (performance.now() - startedAt) / 1000));
    expect(reports.flatMap(({ seed, violations }) => violations.map((text) => `seed ${seed}: ${text}`))).toEqual([]);
  },
  6 * 3_600_000,
);
