import { readFileSync } from "node:fs";
import { isMainThread, parentPort, Worker } from "node:worker_threads";
import { type DispatchProblem, planDay, SharedPlans } from "@/lib/dispatch";
import { parseProblem } from "@/lib/dispatch/schema";

/*
 * npm run -s dispatch:solve < problem.json > plan.json
 * Two searches on two cores: this thread, and a second one from the same file, started before the problem is read.
 */
const MALFORMED = 2;
const DEFAULT_LIMIT_MS = 1000;
/** Kept back for taking over the other search's plan and working out the times. */
const CLOSING_MS = 20;
const WAIT_FOR_OTHER_MS = 25;

interface Task {
  readonly problem: DispatchProblem;
  readonly untilMs: number;
  readonly memory: SharedArrayBuffer;
}

const clock = () => performance.timeOrigin + performance.now();

if (isMainThread) solve();
else parentPort?.once("message", help);

function help({ problem, untilMs, memory }: Task): void {
  const plans = sharedPlans(problem, memory);
  try {
    planDay(problem, { clock, untilMs, seed: 2, exchange: plans.of(1) });
  } finally {
    plans.finish(1);
  }
}

function solve(): void {
  const helper = new Worker(new URL(import.meta.url));
  helper.on("error", (error) => console.error(`The second search failed: ${error.message}`));
  const problem = readProblem();
  const startedMs = clock();
  const untilMs = startedMs + (problem.timeLimitMs ?? DEFAULT_LIMIT_MS) - CLOSING_MS;
  const memory = new SharedArrayBuffer(SharedPlans.bytes(2, problem.jobs.length + problem.technicians.length));
  helper.postMessage({ problem, untilMs, memory } satisfies Task);
  const plans = sharedPlans(problem, memory);
  const exchange = plans.of(0);
  const plan = planDay(problem, {
    clock,
    untilMs,
    seed: 1,
    exchange,
    awaitOthers: () => plans.waitFor(1, WAIT_FOR_OTHER_MS),
  });
  process.stdout.write(`${JSON.stringify(plan)}\n`, () => process.exit(0));
}

function sharedPlans({ jobs, technicians }: DispatchProblem, memory: SharedArrayBuffer): SharedPlans {
  return new SharedPlans(memory, 2, jobs.length + technicians.length);
}

function readProblem(): DispatchProblem {
  let input: unknown;
  try {
    input = JSON.parse(readFileSync(0, "utf8"));
  } catch (error) {
    refuse([`the input is not JSON: ${(error as Error).message}`]);
  }
  const parsed = parseProblem(input);
  if (!parsed.ok) refuse(parsed.error.map(({ path, says }) => `${path}: ${says}`));
  return parsed.value;
}

function refuse(lines: readonly string[]): never {
  for (const line of lines.slice(0, 20)) console.error(line);
  if (lines.length > 20) console.error(`and ${lines.length - 20} more`);
  process.exit(MALFORMED);
}
