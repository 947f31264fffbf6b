import { expect, test } from "vitest";
import { layOut } from "@/lib/dispatch";
import { Routes } from "@/lib/dispatch/routes";
import { Search } from "@/lib/dispatch/search";
import { makeProblem } from "./problem-maker";

/** Everything a route is judged by, as numbers. */
function figuresOf(routes: Routes, r: number): readonly number[] {
  const figures = [routes.wayCost[r]!, routes.timeCost[r]!, routes.load[r]!, routes.hasTimeCost[r]!];
  for (let p = 0; p < routes.length[r]!; p++) {
    const job = routes.stops[r * routes.room + p]!;
    figures.push(
      routes.end0S[job]!,
      routes.end1S[job]!,
      routes.spent1[job]!,
      routes.latest0S[job]!,
      routes.latest1S[job]!,
    );
    if (routes.hasTimeCost[r] === 1)
      for (const arrivalS of [28_000, 36_000, 41_000, 45_000, 52_000]) figures.push(routes.restCost(job, 1, arrivalS));
  }
  return figures;
}

test("a route renewed only where it changed is the route worked out from nothing", () => {
  let compared = 0;
  for (let seed = 0; seed < 300; seed++) {
    const instance = layOut(makeProblem(seed, 24));
    const search = new Search(instance, seed + 1);
    search.begin();
    for (let step = 0; step < 25; step++) {
      search.step(search.costPerVisit());
      const fresh = new Routes(instance);
      for (let r = 0; r < instance.technicianCount; r++) {
        fresh.restore(r, search.routes.stops, r * search.routes.room, search.routes.length[r]!, 0);
        expect(figuresOf(search.routes, r), `made day ${seed}, step ${step}, route ${r}`).toEqual(figuresOf(fresh, r));
        compared++;
      }
    }
  }
  expect(compared).toBeGreaterThan(5_000);
});
