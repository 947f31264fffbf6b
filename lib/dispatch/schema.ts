import * as z from "zod";
import { err, ok, type Result } from "@/lib/result";
import type { DispatchProblem } from "./problem";

const time = z.number();
const amount = z.number().nonnegative();
const weight = amount.optional();
const weightByPriority = z.union([amount, z.record(z.string(), amount)]).optional();
const place = z.int().nonnegative();
const window = z.tuple([time, time]);
const quantities = z.record(z.string(), amount).optional();

const technician = z.object({
  id: z.string().min(1),
  skills: z.array(z.string()),
  start: place,
  end: place.nullable(),
  shift: window,
  maxOvertime: amount.optional(),
  lunch: z.object({ window, duration: amount }).nullish(),
  stock: quantities,
  capacity: amount.optional(),
  maxJobs: amount.optional(),
  from: z.object({ location: place, time }).optional(),
});

const job = z.object({
  id: z.string().min(1),
  location: place,
  duration: amount,
  skills: z.array(z.string()),
  windows: z.array(window).optional(),
  due: time.optional(),
  releasedAt: time.optional(),
  priority: z.int().min(1).max(4),
  parts: quantities,
  load: amount.optional(),
  lockedTo: z.string().optional(),
  lockedStart: time.optional(),
  preferredTechnicians: z.array(z.string()).optional(),
  excludedTechnicians: z.array(z.string()).optional(),
  promised: z.object({ technician: z.string(), start: time, tolerance: amount.optional() }).optional(),
  kind: z.string().optional(),
});

const problem = z.object({
  format: z.literal("dispatch-problem/1"),
  name: z.string().default(""),
  now: time.optional(),
  timeLimitMs: amount.optional(),
  travelSeconds: z.array(z.array(amount)),
  technicians: z.array(technician),
  jobs: z.array(job),
  objective: z.object({
    travelPerSecond: weight,
    technicianUsed: weight,
    unassigned: weightByPriority,
    latenessPerSecond: weightByPriority,
    responsePerSecond: weightByPriority,
    overtimePerSecond: weight,
    preferenceMiss: weight,
    changeTechnician: weight,
    changeStartPerSecond: weight,
    dropPromised: weight,
  }),
});

/** One thing wrong with a problem, and where: `jobs[3].location`. */
export interface ProblemFault {
  readonly code: "malformed-problem";
  readonly path: string;
  readonly says: string;
}

/** A problem as it came in, or everything that is wrong with it. */
export function parseProblem(input: unknown): Result<DispatchProblem, readonly ProblemFault[]> {
  const parsed = problem.safeParse(input);
  if (!parsed.success)
    return err(parsed.error.issues.map(({ path, message }) => fault(path as (string | number)[], message)));
  const faults = listReferenceFaults(parsed.data);
  return faults.length > 0 ? err(faults) : ok(parsed.data);
}

function fault(path: readonly (string | number)[], says: string): ProblemFault {
  const written = path.map((part) => (typeof part === "number" ? `[${part}]` : `.${part}`)).join("");
  return { code: "malformed-problem", path: written.replace(/^\./, "") || "the problem", says };
}

function listReferenceFaults({ travelSeconds, technicians, jobs }: DispatchProblem): ProblemFault[] {
  const faults: ProblemFault[] = [];
  const places = travelSeconds.length;
  travelSeconds.forEach((row, a) => {
    if (row.length !== places) faults.push(fault(["travelSeconds", a], `has ${row.length} entries, not ${places}`));
  });
  const checkPlace = (at: number | null | undefined, ...path: (string | number)[]) => {
    if (at != null && at >= places) faults.push(fault(path, `is ${at}, but travelSeconds has ${places} locations`));
  };
  const people = new Set<string>();
  technicians.forEach(({ id, start, end, from }, r) => {
    if (people.has(id)) faults.push(fault(["technicians", r, "id"], `"${id}" is there twice`));
    people.add(id);
    checkPlace(start, "technicians", r, "start");
    checkPlace(end, "technicians", r, "end");
    checkPlace(from?.location, "technicians", r, "from", "location");
  });
  const seen = new Set<string>();
  jobs.forEach(({ id, location }, j) => {
    if (seen.has(id)) faults.push(fault(["jobs", j, "id"], `"${id}" is there twice`));
    seen.add(id);
    checkPlace(location, "jobs", j, "location");
  });
  return faults;
}
