import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { reportQuality } from "@/lib/quality";
import { parseCohort } from "@/lib/quality/schema";

type Line = readonly [string, string, string, string, string, string | null];
const printed = JSON.parse(readFileSync("tests/published/quality-cohort.json", "utf8")) as {
  today: string;
  windowDays: number;
  jobs: readonly Line[];
  report: Record<string, unknown>;
};

/** The likeliest spread is found by a search, in the other program too: its figures agree to fewer digits. */
const SEARCHED = /\.shrunk/;

test("every figure of an invented cohort is the one another program found, and no figure is missing or added", () => {
  const { today, windowDays } = printed;
  const jobs = printed.jobs.map(([closed, strength, technician, a, b, callback], index) => {
    return { id: `j${index}`, closed, strength, technician, stratum: { a, b }, callback };
  });
  const cohort = parseCohort({ today, windowDays, jobs });
  if (!cohort.ok) throw new Error(cohort.error.message);
  const { enough, ...figures } = reportQuality(cohort.value);
  expect(Object.keys(enough)).toEqual(["verdict", "text"]);
  expectSame(JSON.parse(JSON.stringify(figures)), printed.report, "report");
});

function expectSame(ours: unknown, theirs: unknown, path: string): void {
  if (typeof theirs === "number") {
    const apart = Math.abs((ours as number) - theirs) / Math.max(Math.abs(theirs), Number.MIN_VALUE);
    expect(theirs === ours || apart < (SEARCHED.test(path) ? 1e-6 : 1e-12), `${path}: ${ours} or ${theirs}`).toBe(true);
    return;
  }
  if (theirs === null || typeof theirs !== "object") {
    expect(ours, path).toBe(theirs);
    return;
  }
  expect(Object.keys(ours as object).sort(), path).toEqual(Object.keys(theirs).sort());
  for (const [key, value] of Object.entries(theirs))
    expectSame((ours as Record<string, unknown>)[key], value, `${path}.${key}`);
}
