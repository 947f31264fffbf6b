import { type DispatchPlan, type DispatchProblem, type PlanOptions, planDay, SharedPlans } from "@/lib/dispatch";

/** Kept back for taking over the other search's plan and working out the times. */
export const CLOSING_MS = 20;
const WAIT_FOR_OTHER_MS = 25;

/** One problem searched on several threads, each with a seed of its own, in memory they share. */
export interface SharedTask {
  readonly problem: DispatchProblem;
  /** By `wallClockMs`, which all threads read alike. */
  readonly untilMs: number;
  readonly memory: SharedArrayBuffer;
  readonly searches: number;
}

export const wallClockMs = () => performance.timeOrigin + performance.now();

export function shareTask(problem: DispatchProblem, untilMs: number, searches: number): SharedTask {
  const memory = new SharedArrayBuffer(SharedPlans.bytes(searches, orderLength(problem)));
  return { problem, untilMs, memory, searches };
}

/** Takes part in the search as number `own`; the first waits for what the others have in the end. */
export function searchTogether(
  task: SharedTask,
  own: number,
  options: Pick<PlanOptions, "shouldStop" | "onProgress"> = {},
): DispatchPlan {
  const { problem, memory, searches, untilMs } = task;
  const plans = new SharedPlans(memory, searches, orderLength(problem));
  try {
    return planDay(problem, {
      ...options,
      clock: wallClockMs,
      untilMs,
      seed: own + 1,
      exchange: plans.of(own),
      ...(own === 0 && {
        awaitOthers: () => {
          for (let other = 1; other < searches; other++) plans.waitFor(other, WAIT_FOR_OTHER_MS);
        },
      }),
    });
  } finally {
    plans.finish(own);
  }
}

function orderLength({ jobs, technicians }: DispatchProblem): number {
  return jobs.length + technicians.length;
}
