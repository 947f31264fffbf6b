import { explainOpenJob } from "./open-reason";
import type { DispatchPlan, Stop } from "./problem";
import type { Routes } from "./routes";

/** The plan as it is told to people: the cheapest times for the order found, and why each open job is open. */
export function writePlan(routes: Routes, solveMs: number): DispatchPlan {
  const { instance } = routes;
  const { problem, technicianCount, jobCount } = instance;
  routes.timeAll();
  const planned = problem.technicians.flatMap(({ id }, r) =>
    routes.length[r] === 0 ? [] : [{ technician: id, stops: listStops(routes, r) }],
  );
  const unassigned = problem.jobs.flatMap(({ id }, j) =>
    routes.routeOf[j] === -1 ? [{ job: id, reason: explainOpenJob(routes, j) }] : [],
  );
  let cost = 0;
  for (let r = 0; r < technicianCount; r++) cost += routes.cost(r);
  for (let j = 0; j < jobCount; j++) if (routes.routeOf[j] === -1) cost += instance.openCost[j]!;
  return { format: "dispatch-plan/1", name: problem.name, routes: planned, unassigned, cost, solveMs };
}

function listStops(routes: Routes, r: number): readonly Stop[] {
  const { instance } = routes;
  const { problem, jobCount, lunchFromS } = instance;
  const stops: Stop[] = [];
  const lunchAfter = (node: number) =>
    stops.push({ lunch: true, start: Math.max(routes.plannedEndS[node]!, lunchFromS[r]!) });
  let previous = jobCount + r;
  for (let p = 0; p < routes.length[r]!; p++) {
    const job = routes.stops[r * routes.room + p]!;
    if (routes.plannedAfterLunch[job] === 1 && routes.plannedAfterLunch[previous] === 0) lunchAfter(previous);
    stops.push({ job: problem.jobs[job]!.id, start: routes.plannedStartS[job]! });
    previous = job;
  }
  if (routes.plannedAfterLunch[previous] === 0) lunchAfter(previous);
  return stops;
}
