import { readFileSync } from "node:fs";
import { isMainThread, parentPort, Worker } from "node:worker_threads";
import type { DispatchProblem } from "@/lib/dispatch";
import { CLOSING_MS, type SharedTask, searchTogether, shareTask, wallClockMs } from "@/lib/planner/search-together";

/*
 * npm run -s dispatch:solve < problem.json > plan.json
 * Two searches on two cores: this thread, and a second one from the same file, started before the problem is read.
 */
const MALFORMED = 2;
const DEFAULT_LIMIT_MS = 1000;

if (isMainThread) await solve();
else parentPort?.once("message", (task: SharedTask) => searchTogether(task, 1));

async function solve(): Promise<void> {
  const helper = new Worker(new URL(import.meta.url));
  helper.on("error", (error) => console.error(`The second search failed: ${error.message}`));
  const problem = await readProblem();
  const task = shareTask(problem, wallClockMs() + (problem.timeLimitMs ?? DEFAULT_LIMIT_MS) - CLOSING_MS, 2);
  helper.postMessage(task);
  const plan = searchTogether(task, 0);
  process.stdout.write(`${JSON.stringify(plan)}\n`, () => process.exit(0));
}

async function readProblem(): Promise<DispatchProblem> {
  // loaded here, so that the second thread starts without it
  const { parseProblem } = await import("@/lib/dispatch/schema");
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
