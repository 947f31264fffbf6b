import { describe, expect, test } from "vitest";
import { type DispatchJob, type DispatchProblem, listPromisableWindows, planDay } from "@/lib/dispatch";
import { checkPlan } from "./plan-checker";
import { makeProblem } from "./problem-maker";

const looks = () => {
  let now = 0;
  return { clock: () => now++, untilMs: 40 };
};
const hour = 3_600;
const job = (id: string, more: Partial<DispatchJob> = {}): DispatchJob => ({
  id,
  location: 1,
  duration: hour,
  skills: [],
  priority: 2,
  ...more,
});
const day = (jobs: readonly DispatchJob[]): DispatchProblem => ({
  name: "a day",
  travelSeconds: [
    [0, 1_800],
    [1_800, 0],
  ],
  technicians: [
    { id: "Ada", skills: ["Type II", "A2L"], start: 0, end: 0, shift: [8 * hour, 17 * hour], stock: { "R-32": 2 } },
    { id: "Ben", skills: ["Type II"], start: 0, end: 0, shift: [8 * hour, 17 * hour], maxJobs: 1 },
  ],
  jobs,
  objective: { unassigned: 50_000 },
});
const reasonFor = (wanted: DispatchJob, others: readonly DispatchJob[] = []) =>
  planDay(day([...others, wanted]), looks()).unassigned.find(({ job: id }) => id === wanted.id)?.reason;

describe("an open visit says what keeps it open", () => {
  test.each([
    [job("X", { skills: ["ammonia"] }), "nobody with ammonia is at work"],
    [job("X", { lockedTo: "Eve" }), "locked to Eve, who is not at work"],
    [job("X", { lockedTo: "Ben", skills: ["A2L"] }), "locked to Ben, who does not hold A2L"],
    [job("X", { skills: ["A2L"], parts: { "R-32": 3 } }), "nobody with A2L has enough R-32 left on the van"],
    [
      job("X", { skills: ["A2L"], excludedTechnicians: ["Ada"] }),
      "nobody with A2L is at work who may do it: the others are ruled out for it",
    ],
    [
      job("X", { windows: [[8 * hour, 8 * hour + 600]] }),
      "nobody can be there between 08:00 and 08:10 and finish in time, even with nothing else to do",
    ],
  ])("%#: %o", (wanted, reason) => expect(reasonFor(wanted)).toBe(reason));

  test("the hour from which somebody with the certificates is free again", () => {
    const long = job("LONG", { lockedTo: "Ada", lockedStart: 9 * hour, duration: 6 * hour });
    const wanted = job("X", { skills: ["Type II", "A2L"], windows: [[9 * hour, 12 * hour]], duration: 1_800 });
    expect(reasonFor(wanted, [long])).toBe(
      "nobody with Type II and A2L is free before 15:00; its window closes at 12:00",
    );
  });
});

describe("windows that can still be promised", () => {
  test("every window offered can be kept, by the checker's rules, on days made by chance", () => {
    let offered = 0;
    for (let seed = 0; seed < 150; seed++) {
      const problem = makeProblem(seed);
      const plan = planDay(problem, looks());
      const call = job("CALL", { location: 0 });
      const windows = Array.from({ length: 10 }, (_, w) => [(7 + w) * hour, (8 + w) * hour] as const);
      for (const { window, offer } of listPromisableWindows(problem, plan, call, windows)) {
        if (offer === undefined) continue;
        offered++;
        // the promise in earnest: everybody keeps their visits, the call is locked to the one who was offered
        const kept = new Map(
          plan.routes.flatMap((r) => r.stops.flatMap((s) => ("job" in s ? [[s.job, r.technician]] : []))),
        );
        const jobs = problem.jobs.flatMap((one) => (kept.has(one.id) ? [{ ...one, lockedTo: kept.get(one.id)! }] : []));
        const all = { ...problem, jobs: [...jobs, { ...call, windows: [window], lockedTo: offer.technician }] };
        const { broken } = checkPlan(all, planDay(all, looks()));
        expect(broken, `made day ${seed}, window from ${window[0]}`).toEqual([]);
      }
    }
    expect(offered).toBeGreaterThan(100);
  });
});
