import { layOut } from "./instance";
import type { DispatchPlan, DispatchProblem } from "./problem";
import { Search } from "./search";
import { writePlan } from "./write-plan";

/** Temperatures at the beginning and the end of a search, as a share of what one visit costs. */
const HOT = 1;
const COLD = 0.01;
const STEPS_BETWEEN_LOOKS = 8;
const PACE_OVER_MS = 20;

export interface SearchProgress {
  readonly elapsedMs: number;
  readonly steps: number;
  readonly cost: number;
}

/** Plans found by other searches for the same problem, and a place to show one's own. */
export interface PlanExchange {
  offer(cost: number, order: Int32Array): void;
  /** A plan cheaper than this cost, if anybody has one. */
  better(cost: number): Int32Array | undefined;
}

export interface PlanOptions {
  /** Milliseconds from any fixed moment. */
  readonly clock: () => number;
  readonly untilMs: number;
  readonly seed?: number;
  readonly shouldStop?: () => boolean;
  readonly onProgress?: (progress: SearchProgress) => void;
  readonly exchange?: PlanExchange;
  /** Waits until the others have offered what they have in the end. */
  readonly awaitOthers?: () => void;
  /** Shares of the time at which a better plan from elsewhere is taken over. */
  readonly exchangeAt?: readonly number[];
}

/** Searches until the time is up or it is stopped; what it has then is a sound plan, at any moment. */
export function planDay(problem: DispatchProblem, options: PlanOptions): DispatchPlan {
  const startedMs = options.clock();
  const search = new Search(layOut(problem), options.seed ?? 1);
  runSearch(search, startedMs, options);
  options.awaitOthers?.();
  search.adopt(options.exchange?.better(search.bestCost) ?? search.best);
  return writePlan(search.routes, options.clock() - startedMs);
}

/**
 * Cools by the work done, not by the clock: while the machine is still compiling, or is shared, steps are few, and a
 * search that cooled with the time would be cold before it had looked around.
 */
export function runSearch(search: Search, startedMs: number, options: PlanOptions): void {
  const { clock, untilMs, exchange, exchangeAt = [0.5, 0.7, 0.85, 0.95] } = options;
  search.begin();
  const hot = HOT * search.costPerVisit();
  const beganMs = clock();
  let [temperature, nextExchange, offered, told] = [hot, 0, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  let [stepsPerMs, pacedMs, pacedSteps] = [0, beganMs, search.steps];
  for (;;) {
    if (search.steps % STEPS_BETWEEN_LOOKS === 0) {
      const nowMs = clock();
      if (nowMs >= untilMs || options.shouldStop?.()) break;
      const share = (nowMs - beganMs) / (untilMs - beganMs);
      if (nowMs - pacedMs >= PACE_OVER_MS) {
        const pace = (search.steps - pacedSteps) / (nowMs - pacedMs);
        stepsPerMs = stepsPerMs === 0 ? pace : (stepsPerMs + pace) / 2;
        [pacedMs, pacedSteps] = [nowMs, search.steps];
      }
      const done = stepsPerMs === 0 ? 0 : search.steps / (search.steps + stepsPerMs * (untilMs - nowMs));
      temperature = hot * (COLD / HOT) ** done;
      if (search.bestCost < told) {
        told = search.bestCost;
        options.onProgress?.({ elapsedMs: nowMs - startedMs, steps: search.steps, cost: told });
      }
      if (exchange !== undefined && share >= (exchangeAt[nextExchange] ?? Number.POSITIVE_INFINITY)) {
        nextExchange++;
        if (search.bestCost < offered) {
          offered = search.bestCost;
          exchange.offer(offered, search.best);
        }
        const other = exchange.better(search.bestCost - 1e-7);
        if (other !== undefined) search.adopt(other);
      }
    }
    search.step(temperature);
  }
  if (exchange !== undefined && search.bestCost < offered) exchange.offer(search.bestCost, search.best);
}
