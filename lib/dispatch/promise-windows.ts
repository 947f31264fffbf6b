import { Insertions } from "./insertion";
import { layOut } from "./instance";
import type { DispatchJob, DispatchPlan, DispatchProblem, TimeWindow } from "./problem";
import { Routes } from "./routes";

export interface PromisableWindow {
  readonly window: TimeWindow;
  /** Who would come, and what it would add to the cost of the day; absent: it cannot be promised. */
  readonly offer?: { readonly technician: string; readonly addedCost: number };
}

/**
 * Which of these windows can still be promised for a new call, with the day as planned: nobody's visits change hands
 * or order, every other window and every limit is kept.
 */
export function listPromisableWindows(
  problem: DispatchProblem,
  plan: DispatchPlan,
  call: DispatchJob,
  windows: readonly TimeWindow[],
): readonly PromisableWindow[] {
  // one copy of the call for each window, so that the day is laid out once
  const calls = windows.map((window, w) => ({ ...call, id: `${call.id} ${w}`, windows: [window] }));
  const instance = layOut({ ...problem, jobs: [...problem.jobs, ...calls] });
  const routes = new Routes(instance);
  const numberOf = new Map(problem.jobs.map(({ id }, j) => [id, j]));
  for (const { technician, stops } of plan.routes) {
    const r = problem.technicians.findIndex(({ id }) => id === technician);
    for (const stop of stops) if ("job" in stop) routes.insert(r, routes.length[r]!, numberOf.get(stop.job)!);
  }
  const insertions = new Insertions(instance, routes);
  return windows.map((window, w) => {
    let offer: PromisableWindow["offer"];
    problem.technicians.forEach(({ id: technician }, r) => {
      insertions.find(problem.jobs.length + w, r);
      if (insertions.cost < (offer?.addedCost ?? Number.POSITIVE_INFINITY))
        offer = { technician, addedCost: insertions.cost };
    });
    return offer === undefined ? { window } : { window, offer };
  });
}
