import { afterAll, beforeAll, expect, test } from "vitest";
import { openProvingGround, type ProvingGround } from "./proving-ground";
import { seedsToPlay } from "./seeds";
import { tallyOf } from "./tally";

let ground: ProvingGround;
beforeAll(async () => {
  ground = await openProvingGround();
});
afterAll(() => ground.close());

test(
  "whatever fails on the way, what was called saved here arrives once and everybody sees the same job",
  async () => {
    const startedAt = performance.now();
    const reports = await ground.play(seedsToPlay(), {
      onRun: (done) => {
        if (done.length % 250 !== 0) return;
        const found = done.flatMap(({ seed, violations }) => violations.map((text) => `seed ${seed}: ${text}`));
        console.info(`${done.length} runs, ${found.length} findings`, ...found);
      },
    });
    console.info(tallyOf(reports, (performance.now() - startedAt) / 1000));
    expect(reports.flatMap(({ seed, violations }) => violations.map((text) => `seed ${seed}: ${text}`))).toEqual([]);
  },
  6 * 3_600_000,
);
