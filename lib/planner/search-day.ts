import "server-only";
import { join } from "node:path";
import type { Worker } from "node:worker_threads";
import type { DispatchPlan, DispatchProblem, SearchProgress } from "@/lib/dispatch";
import { err, ok, type Result } from "@/lib/result";
import type { SearchOrder, SearchReport } from "./search-thread";
import { CLOSING_MS, shareTask, wallClockMs } from "./search-together";

export interface DaySearchOptions {
  /** Milliseconds of search; what the problem says, or a second. */
  readonly limitMs?: number;
  readonly onProgress?: (progress: SearchProgress) => void;
  /** Aborted: the best plan so far is the answer. */
  readonly signal?: AbortSignal;
}
export type DaySearchFailure =
  | { readonly code: "planner-busy" }
  | { readonly code: "planner-failed"; readonly message: string };

const THREADS = 2;
const DEFAULT_LIMIT_MS = 1_000;
/** How long a search may wait for the ones before it. */
const LONGEST_WAIT_MS = 15_000;
/** A thread that has said nothing this long after its time is given up. */
const GRACE_MS = 5_000;

/**
 * Searches for a plan on threads of their own, so that the server goes on answering. One search at a time: the next
 * waits its turn, and is told the planner is busy when that takes too long.
 */
export async function searchDay(
  problem: DispatchProblem,
  options: DaySearchOptions = {},
): Promise<Result<DispatchPlan, DaySearchFailure>> {
  const turn = planner().queue;
  let leave = () => {};
  planner().queue = new Promise((resolve) => {
    leave = resolve;
  });
  const waited = await Promise.race([turn.then(() => "mine" as const), after(LONGEST_WAIT_MS)]);
  if (waited === "late") {
    turn.then(leave);
    return err({ code: "planner-busy" });
  }
  try {
    return await search(problem, options);
  } finally {
    leave();
  }
}

async function search(
  problem: DispatchProblem,
  { limitMs = problem.timeLimitMs ?? DEFAULT_LIMIT_MS, onProgress, signal }: DaySearchOptions,
): Promise<Result<DispatchPlan, DaySearchFailure>> {
  const stop = new SharedArrayBuffer(4);
  const raise = () => Atomics.store(new Int32Array(stop), 0, 1);
  if (signal?.aborted) raise();
  signal?.addEventListener("abort", raise);
  let threads: readonly Thread[];
  try {
    threads = await Promise.all(Array.from({ length: THREADS }, (_, own) => threadOf(own)));
  } catch (error) {
    return err({ code: "planner-failed", message: (error as Error).message });
  }
  const task = shareTask(problem, wallClockMs() + limitMs - CLOSING_MS, THREADS);
  const answers = threads.map((thread, own) =>
    searchOn(thread, { task, own, stop }, limitMs + GRACE_MS, own === 0 ? onProgress : undefined),
  );
  const plans = await Promise.all(answers);
  signal?.removeEventListener("abort", raise);
  // the first has taken over what the others found; one of theirs serves where it failed
  return plans.find((answer) => answer.ok) ?? plans[0]!;
}

function searchOn(
  thread: Thread,
  order: SearchOrder,
  withinMs: number,
  onProgress?: (progress: SearchProgress) => void,
): Promise<Result<DispatchPlan, DaySearchFailure>> {
  return new Promise((resolve) => {
    const end = (answer: Result<DispatchPlan, DaySearchFailure>) => {
      clearTimeout(timer);
      thread.hear = ignore;
      thread.worker.unref();
      resolve(answer);
    };
    const timer = setTimeout(() => {
      void thread.worker.terminate();
      end(err({ code: "planner-failed", message: "no answer in time" }));
    }, withinMs);
    thread.worker.ref();
    thread.hear = (report) => {
      if (report.kind === "progress") onProgress?.(report.progress);
      else if (report.kind === "plan") end(ok(report.plan));
      else if (report.kind === "failed") end(err({ code: "planner-failed", message: report.message }));
    };
    thread.worker.postMessage(order);
  });
}

/** A thread that stays for the next search, and who hears what it reports. */
interface Thread {
  readonly worker: Worker;
  hear: (report: SearchReport) => void;
}
const ignore = () => {};

interface Planner {
  queue: Promise<void>;
  readonly threads: Map<number, Promise<Thread>>;
}

/** One planner for the process, whatever number of copies of this file a development server loads. */
function planner(): Planner {
  const held = globalThis as { dryholdPlanner?: Planner };
  held.dryholdPlanner ??= { queue: Promise.resolve(), threads: new Map() };
  return held.dryholdPlanner;
}

function threadOf(own: number): Promise<Thread> {
  const { threads } = planner();
  const standing = threads.get(own) ?? startThread(own);
  threads.set(own, standing);
  return standing;
}

/** Starts a thread from the bundle that the commands' own starter makes, and waits until it listens. One that dies is forgotten. */
function startThread(own: number): Promise<Thread> {
  const starter = join(process.cwd(), "scripts/bundled.mjs");
  // asked for at run time: the app's bundler would pull everything it finds behind a worker's name into the build
  const { Worker } = process.getBuiltinModule("node:worker_threads");
  const worker = new Worker(starter, { argv: ["lib/planner/search-thread.ts"] });
  return new Promise((resolve, reject) => {
    const thread: Thread = { worker, hear: ({ kind }) => kind === "ready" && resolve(thread) };
    const lost = (message: string) => {
      planner().threads.delete(own);
      thread.hear({ kind: "failed", message });
      reject(new Error(message));
    };
    worker.on("message", (report: SearchReport) => thread.hear(report));
    worker.on("error", (error) => lost(error.message));
    worker.on("exit", (code) => lost(`the thread ended with code ${code}`));
  });
}

function after(ms: number): Promise<"late"> {
  return new Promise((resolve) => setTimeout(() => resolve("late"), ms).unref());
}
