import { expect, test } from "vitest";
import type { DispatchProblem, SearchProgress } from "@/lib/dispatch";
import { searchDay } from "@/lib/planner/search-day";
import { checkPlan } from "../dispatch/plan-checker";
import { makeProblem } from "../dispatch/problem-maker";

/** A day big enough to be searched for as long as it is given. */
function bigDay(): DispatchProblem {
  const problem = makeProblem(7, 1);
  const travelSeconds = Array.from({ length: 60 }, (_, a) =>
    Array.from({ length: 60 }, (_, b) => Math.abs(a - b) * 60 + ((a * 7 + b * 13) % 11) * 20),
  );
  const jobs = Array.from({ length: 60 }, (_, j) => ({
    id: `J${j}`,
    location: j,
    duration: 1800,
    skills: [],
    priority: 2,
  }));
  const technicians = Array.from({ length: 6 }, (_, r) => ({
    id: `T${r}`,
    skills: [],
    start: r,
    end: r,
    shift: [28_800, 61_200] as const,
  }));
  return { ...problem, name: "big", now: 0, travelSeconds, technicians, jobs, objective: { unassigned: 9_000 } };
}

test("a search on the planner's threads gives a sound plan, tells its progress, and leaves this thread free", async () => {
  const problem = bigDay();
  const told: SearchProgress[] = [];
  let ticks = 0;
  const ticking = setInterval(() => ticks++, 10);
  const answer = await searchDay(problem, { limitMs: 600, onProgress: (progress) => told.push(progress) });
  clearInterval(ticking);
  if (!answer.ok) throw new Error(JSON.stringify(answer.error));
  expect(checkPlan(problem, answer.value).broken).toEqual([]);
  expect(told.length).toBeGreaterThan(0);
  expect(ticks).toBeGreaterThan(10);
});

test("stopped, it answers at once with the best so far", async () => {
  const problem = bigDay();
  const stop = new AbortController();
  const began = performance.now();
  const searching = searchDay(problem, { limitMs: 60_000, signal: stop.signal });
  setTimeout(() => stop.abort(), 300);
  const answer = await searching;
  expect(performance.now() - began).toBeLessThan(10_000);
  if (!answer.ok) throw new Error(JSON.stringify(answer.error));
  expect(checkPlan(problem, answer.value).broken).toEqual([]);
  const never = await searchDay(problem, { limitMs: 60_000, signal: AbortSignal.abort() });
  expect(never.ok && checkPlan(problem, never.value).broken).toEqual([]);
});

test("several at once take turns, each with its own day", async () => {
  const days = [1, 2, 3].map((seed) => makeProblem(seed));
  const answers = await Promise.all(days.map((day) => searchDay(day, { limitMs: 60 })));
  answers.forEach((answer, n) => {
    if (!answer.ok) throw new Error(JSON.stringify(answer.error));
    expect(answer.value.name).toBe(days[n]!.name);
    const broken = checkPlan(days[n]!, answer.value).broken.filter((text) => !text.endsWith("is locked and left open"));
    expect(broken).toEqual([]);
  });
});

test("a problem that breaks the search is an answer, and the next one is searched all the same", async () => {
  const askew = { ...makeProblem(1), travelSeconds: null } as unknown as DispatchProblem;
  expect(await searchDay(askew, { limitMs: 50 })).toMatchObject({ ok: false, error: { code: "planner-failed" } });
  expect((await searchDay(bigDay(), { limitMs: 50 })).ok).toBe(true);
});
