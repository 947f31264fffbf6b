import * as z from "zod";
import { err, ok, type Result } from "@/lib/result";
import { type Cohort, STRENGTHS } from "./cohort";

const MS_PER_DAY = 86_400_000;

const siteDay = z.iso.date();
const jobWire = z.strictObject({
  id: z.string().min(1),
  closed: siteDay,
  strength: z.enum(STRENGTHS),
  technician: z.string().min(1),
  stratum: z.record(z.string(), z.string()),
  callback: siteDay.nullable(),
});

/** A cohort as the command reads it; days are site days. */
export const cohortWire = z.strictObject({
  today: siteDay,
  windowDays: z.int().min(1).max(3650),
  jobs: z.array(jobWire),
});

export interface CohortError {
  readonly code: "malformed-cohort";
  readonly path: readonly (string | number)[];
  readonly message: string;
}

/** A cohort from outside, or the first thing that is wrong with it and where. */
export function parseCohort(value: unknown): Result<Cohort, CohortError> {
  const parsed = cohortWire.safeParse(value);
  if (!parsed.success) {
    const issue = parsed.error.issues[0]!;
    const unknown = issue.code === "unrecognized_keys" ? issue.keys.slice(0, 1) : [];
    return malformed(
      [...issue.path.map((part) => (typeof part === "number" ? part : String(part))), ...unknown],
      issue.message,
    );
  }
  const { today, windowDays, jobs } = parsed.data;
  const todayDay = dayNumber(today);
  const seen = new Set<string>();
  const cohort: Cohort["jobs"][number][] = [];
  for (const [index, { closed, callback, ...job }] of jobs.entries()) {
    const closedDay = dayNumber(closed);
    const callbackDay = callback === null ? null : dayNumber(callback);
    if (seen.has(job.id)) return malformed(["jobs", index, "id"], `A job with the id ${job.id} came before.`);
    seen.add(job.id);
    if (closedDay > todayDay) return malformed(["jobs", index, "closed"], "The job was closed after today.");
    if (callbackDay !== null && callbackDay < closedDay)
      return malformed(["jobs", index, "callback"], "The callback came before the job was closed.");
    if (callbackDay !== null && callbackDay > todayDay)
      return malformed(["jobs", index, "callback"], "The callback lies after today.");
    cohort.push({ ...job, closedDay, callbackDay });
  }
  return ok({ todayDay, windowDays, jobs: cohort });
}

function malformed(path: CohortError["path"], message: string) {
  return err({ code: "malformed-cohort", path, message } as const);
}

function dayNumber(siteDay: string): number {
  return Date.parse(`${siteDay}T00:00:00Z`) / MS_PER_DAY;
}
