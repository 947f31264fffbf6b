import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { checkPlan } from "./plan-checker";
import { makeProblem } from "./problem-maker";

const solve = (input: string) =>
  spawnSync(process.execPath, ["scripts/bundled.mjs", "scripts/dispatch-solve.ts"], { input, encoding: "utf8" });
const day = (name: string) => JSON.parse(readFileSync(`tests/dispatch-data/days/${name}.json`, "utf8"));

describe("the command", () => {
  test.each([
    "sample-6-35",
    "sample-10-60",
    "sample-25-160",
    "sample-10-60-e1-emergency",
    "sample-10-60-e2-overrun",
    "sample-10-60-e4-technicianOut",
    "sample-10-60-e6-emergency",
  ])("plans %s soundly and writes nothing but the plan", (name) => {
    const problem = day(name);
    const { status, stdout } = solve(JSON.stringify(problem));
    expect(status).toBe(0);
    const plan = JSON.parse(stdout);
    const { broken, cost } = checkPlan(problem, plan);
    expect(broken).toEqual([]);
    expect(Math.abs(plan.cost - cost)).toBeLessThan(1e-3);
    expect(plan.unassigned.every(({ reason }: { reason: string }) => reason.length > 0)).toBe(true);
  });

  const sound = makeProblem(3);
  test.each([
    ["{", "the input is not JSON"],
    ["[]", "the problem"],
    [JSON.stringify({ ...sound, format: "dispatch-problem/9" }), "format"],
    [JSON.stringify({ ...sound, jobs: [{ ...sound.jobs[0], location: 99 }] }), "jobs[0].location: is 99"],
    [JSON.stringify({ ...sound, jobs: [{ ...sound.jobs[0], duration: -1 }] }), "jobs[0].duration"],
    [JSON.stringify({ ...sound, travelSeconds: [[0, 1]] }), "travelSeconds[0]: has 2 entries, not 1"],
    [JSON.stringify({ ...sound, jobs: [sound.jobs[0], sound.jobs[0]] }), "jobs[1].id"],
  ])("refuses %# with status 2, the place named and no plan", (input, says) => {
    const { status, stdout, stderr } = solve(input);
    expect(status).toBe(2);
    expect(stdout).toBe("");
    expect(stderr).toContain(says);
  });
});
