import { describe, expect, test } from "vitest";
import { type DispatchProblem, planDay } from "@/lib/dispatch";
import { checkPlan } from "./plan-checker";
import { makeProblem } from "./problem-maker";

/** A clock that moves one millisecond a look, so that every machine searches as long. */
const looks = (untilMs: number) => {
  let now = 0;
  return { clock: () => now++, untilMs };
};

function judge(problem: DispatchProblem, untilMs = 12) {
  const plan = planDay(problem, looks(untilMs));
  return { plan, ...checkPlan(problem, plan) };
}

/** Locks made by chance are often impossible; nothing can be done then but leave that visit open. */
const beyondLocks = (broken: readonly string[]) => broken.filter((text) => !text.endsWith("is locked and left open"));

describe("whatever the day, the plan keeps every hard rule and costs what it says", () => {
  test.each(Array.from({ length: 30 }, (_, block) => block))("block %i of a hundred made days", (block) => {
    for (let seed = block * 100; seed < (block + 1) * 100; seed++) {
      const { plan, broken, cost } = judge(makeProblem(seed));
      expect(beyondLocks(broken), `made day ${seed}`).toEqual([]);
      const lockedOpen = broken.length; // each is made to cost a thousand million, so that none is left by choice
      expect(Math.abs(plan.cost - cost - lockedOpen * 1e9), `cost of made day ${seed}`).toBeLessThan(1e-2);
    }
  });

  test("a thousand visits", () => {
    const problem = makeProblem(7, 1);
    const jobs = Array.from({ length: 1_000 }, (_, j) => ({
      ...(makeProblem(9_000 + j, 1).jobs[0] ?? { duration: 60, skills: [], priority: 1 }),
      id: `J${j}`,
      location: 0,
    }));
    const technicians = Array.from({ length: 60 }, (_, r) => ({
      id: `T${r}`,
      skills: ["split", "vrf", "co2", "ammonia"],
      start: 0,
      end: 0,
      shift: [28_800, 61_200] as const,
      lunch: { window: [41_400, 48_600] as const, duration: 1_800 },
    }));
    const { broken } = judge({ ...problem, jobs, technicians, now: 0 }, 10);
    expect(beyondLocks(broken)).toEqual([]);
  });
});

describe("days that cannot be planned still get a sound answer", () => {
  const made = makeProblem(3);
  const jobsWithoutLocks = made.jobs.map(({ lockedTo: _to, lockedStart: _at, ...job }) => job);
  const day = { ...made, jobs: jobsWithoutLocks };
  test("nobody at work: every visit is open", () => {
    const { plan, broken } = judge({ ...day, technicians: [] });
    expect(broken).toEqual([]);
    expect(plan.unassigned).toHaveLength(day.jobs.length);
  });
  test("nothing to do: no routes", () => {
    const { plan, broken } = judge({ ...day, jobs: [] });
    expect(broken).toEqual([]);
    expect(plan.routes).toEqual([]);
  });
  test("every window past: every visit is open", () => {
    const jobs = day.jobs.map((job) => ({ ...job, windows: [[0, 60]] as const }));
    const { plan, broken } = judge({ ...day, jobs, now: 30_000 });
    expect(broken).toEqual([]);
    expect(plan.routes).toEqual([]);
  });
  test("a lock on nobody leaves that visit open and says so", () => {
    const jobs = day.jobs.map((job, j) => (j === 0 ? { ...job, lockedTo: "nobody" } : job));
    const { plan, broken } = judge({ ...day, jobs });
    expect(broken).toEqual([`${jobs[0]!.id} is locked and left open`]);
    expect(plan.unassigned.find(({ job }) => job === jobs[0]!.id)?.reason).toMatch(/locked/);
  });
});
