import { readFileSync } from "node:fs";
import type { DispatchProblem } from "@/lib/dispatch";

const HEADER_LINES = 9;
const VEHICLE_LINE = 4;
const NEVER_OPEN = 1e7;

/**
 * A benchmark instance as a day: vehicles are technicians with a capacity, distance is all that counts.
 * @source file layout of M. M. Solomon's instances; distances truncated to tenths by the DIMACS 2021-22 convention
 */
export function readSolomon(name: string): DispatchProblem & { readonly format: "dispatch-problem/1" } {
  const text = readFileSync(new URL(`./solomon/${name}.txt`, import.meta.url), "utf8");
  const rows = text.split(/\r?\n/).map((line) => line.trim().split(/\s+/).map(Number));
  const [vehicles = 0, capacity = 0] = rows[VEHICLE_LINE]!;
  const places = rows.slice(HEADER_LINES).filter((row) => row.length === 7);
  const number = (row: number[], column: number) => row[column]!;
  const [depot, ...customers] = places as [number[], ...number[][]];
  return {
    format: "dispatch-problem/1",
    name,
    travelSeconds: places.map((a) =>
      places.map((b) => Math.floor(10 * Math.hypot(number(a, 1) - number(b, 1), number(a, 2) - number(b, 2)))),
    ),
    technicians: Array.from({ length: vehicles }, (_, v) => ({
      id: `V${v + 1}`,
      skills: [],
      start: 0,
      end: 0,
      shift: [10 * number(depot, 4), 10 * number(depot, 5)] as const,
      capacity,
    })),
    jobs: customers.map((row) => ({
      id: String(number(row, 0)),
      location: number(row, 0),
      duration: 10 * number(row, 6),
      skills: [],
      priority: 1,
      load: number(row, 3),
      windows: [[10 * number(row, 4), 10 * number(row, 5)] as const],
    })),
    objective: { travelPerSecond: 1, unassigned: NEVER_OPEN },
  };
}
