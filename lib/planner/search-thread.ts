import { parentPort } from "node:worker_threads";
import type { DispatchPlan, SearchProgress } from "@/lib/dispatch";
import { type SharedTask, searchTogether, wallClockMs } from "./search-together";

/* What a planner's thread runs: one search after another, each until its time is up or its flag is raised. */

export interface SearchOrder {
  readonly task: SharedTask;
  readonly own: number;
  /** One number, not zero: stop now with what there is. */
  readonly stop: SharedArrayBuffer;
}

export type SearchReport =
  | { readonly kind: "ready" }
  | { readonly kind: "progress"; readonly progress: SearchProgress }
  | { readonly kind: "plan"; readonly plan: DispatchPlan }
  | { readonly kind: "failed"; readonly message: string };

const BETWEEN_REPORTS_MS = 100;

parentPort?.on("message", ({ task, own, stop }: SearchOrder) => {
  const report = (what: SearchReport) => parentPort?.postMessage(what);
  const flag = new Int32Array(stop);
  let toldMs = Number.NEGATIVE_INFINITY;
  try {
    const plan = searchTogether(task, own, {
      shouldStop: () => Atomics.load(flag, 0) !== 0,
      onProgress: (progress) => {
        if (own !== 0 || wallClockMs() - toldMs < BETWEEN_REPORTS_MS) return;
        toldMs = wallClockMs();
        report({ kind: "progress", progress });
      },
    });
    report({ kind: "plan", plan });
  } catch (error) {
    report({ kind: "failed", message: (error as Error).message });
  }
});
parentPort?.postMessage({ kind: "ready" } satisfies SearchReport);
