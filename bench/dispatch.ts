import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { availableParallelism, loadavg } from "node:os";
import { type DispatchPlan, layOut, listPromisableWindows, Search } from "@/lib/dispatch";
import { readSolomon } from "@/tests/dispatch-data/read-solomon";
import { type Figure, printWhenStarted } from "./figure";

const COMMAND = ["scripts/bundled.mjs", "scripts/dispatch-solve.ts"];
const DATA = new URL("../tests/dispatch-data/", import.meta.url);
const LARGE = 1_000;
const STEPS = 20_000;

const read = (name: string) => JSON.parse(readFileSync(new URL(name, DATA), "utf8"));

/** What to solve, and the cost of the best known plan in the plan's own unit. */
function listCases(): readonly (readonly [group: string, problem: object, known: number])[] {
  const days = Object.entries<number>(read("known-costs.json").days).map(([name, known]) => {
    const group = /-e\d/.test(name) ? "replanning with promises" : "whole days";
    return [group, read(`days/${name}.json`), known] as const;
  });
  const benchmark = Object.entries<number>(read("best-known.json").distances).map(
    ([name, distance]) => ["benchmark, 100 stops", readSolomon(name), 10 * distance] as const,
  );
  return [...benchmark, ...days];
}

/** How far plans lie above the best known ones, whole command; insertions a second; memory. */
export async function benchDispatch(): Promise<readonly Figure[]> {
  solve(readSolomon("R101"), 50); // makes the bundle where it is missing
  const figures: Figure[] = [
    {
      name: "processes waiting for a core at the start, of cores",
      value: loadavg()[0]!,
      unit: `of ${availableParallelism()}`,
    },
  ];
  for (const seconds of [1, 5]) {
    const gaps = new Map<string, number[]>();
    let slowest = 0;
    for (const [group, problem, known] of listCases()) {
      const limitMs = group.startsWith("replanning") ? 800 * seconds : 1_000 * seconds;
      const startedAt = performance.now();
      const plan = solve(problem, limitMs);
      slowest = Math.max(slowest, performance.now() - startedAt - limitMs);
      gaps.set(group, [...(gaps.get(group) ?? []), 100 * (plan.cost / known - 1)]);
    }
    for (const [group, all] of gaps) {
      const within = `${group}, ${seconds} s (800 ms a second where promises stand)`;
      figures.push({
        name: `${within}: mean above the best known`,
        value: all.reduce((a, b) => a + b) / all.length,
        unit: "%",
      });
      figures.push({ name: `${within}: worst`, value: Math.max(...all), unit: "%" });
    }
    figures.push({ name: `${seconds} s: command beyond its search, at most`, value: slowest, unit: "ms" });
  }
  return [...figures, ...measureSpeed(), ...measurePromises(), ...measureMemory()];
}

function solve(problem: object, timeLimitMs: number): DispatchPlan {
  const { status, stdout } = spawnSync(process.execPath, COMMAND, {
    input: JSON.stringify({ ...problem, timeLimitMs }),
  });
  if (status !== 0) throw new Error(`The command ended with ${status}`);
  return JSON.parse(stdout.toString());
}

function measureSpeed(): readonly Figure[] {
  return (["R105", "sample-25-160"] as const).map((name) => {
    const search = new Search(layOut(name === "R105" ? readSolomon(name) : read(`days/${name}.json`)), 1);
    search.begin();
    const temperature = search.costPerVisit() / 10;
    const before = process.cpuUsage();
    const evaluatedBefore = search.insertions.evaluated;
    for (let step = 0; step < STEPS; step++) search.step(temperature);
    const seconds = process.cpuUsage(before).user / 1e6;
    const evaluated = search.insertions.evaluated - evaluatedBefore;
    return { name: `insertions tried on ${name}, one core`, value: evaluated / seconds, unit: "a second of processor" };
  });
}

function measurePromises(): readonly Figure[] {
  const problem = read("days/sample-25-160.json");
  const plan = solve(problem, 1_000);
  const call = { id: "call", location: 3, duration: 3_600, skills: ["split"], priority: 2 };
  const windows = Array.from({ length: 20 }, (_, w) => [28_800 + w * 1_800, 30_600 + w * 1_800] as const);
  const startedAt = performance.now();
  listPromisableWindows(problem, plan, call, windows);
  return [
    { name: "20 windows of a day for a new call", value: performance.now() - startedAt, unit: "ms", atMost: 500 },
  ];
}

function measureMemory(): readonly Figure[] {
  const day = read("days/sample-25-160.json");
  const repeats = Math.ceil(LARGE / day.jobs.length);
  const copies = <T extends { id: string }>(all: readonly T[], count: number) =>
    Array.from({ length: count }, (_, c) => all.map((one) => ({ ...one, id: `${one.id}/${c}` }))).flat();
  const free = ({ lockedTo: _to, lockedStart: _at, ...job }: Record<string, unknown> & { id: string }) => job;
  const problem = {
    ...day,
    jobs: copies(day.jobs.map(free), repeats).slice(0, LARGE),
    technicians: copies(day.technicians, repeats),
  };
  const reporting = [
    "-e",
    "process.on('exit', () => console.error(process.resourceUsage().maxRSS)); process.argv.splice(1, 0, ''); import('./scripts/bundled.mjs')",
    ...COMMAND.slice(1),
  ];
  const { stderr } = spawnSync(process.execPath, reporting, {
    input: JSON.stringify({ ...problem, timeLimitMs: 3_000 }),
  });
  const kilobytes = Number(stderr.toString().trim().split("\n").at(-1));
  return [
    {
      name: `memory at ${LARGE} visits and ${problem.technicians.length} technicians, both searches`,
      value: kilobytes / 1024,
      unit: "MB",
      atMost: 1_000,
    },
  ];
}

await printWhenStarted(import.meta.url, benchDispatch);
