import "server-only";
import { setTimeout as delay } from "node:timers/promises";
import { endJob, forgetJobs, putDailyJobs, putOffJob, takeJob } from "@/lib/db/gate";
import { type HeldJob, type Work, waitAfter } from "./job";

/** How long one job may take; after that it is taken for dead and done again. */
const HELD_S = 300;
const LOOK_EVERY_MS = 3_000;
const TEND_EVERY_MS = 3_600_000;

export interface Works {
  readonly once: Readonly<Record<string, Work>>;
  /** Done for every company once a day, at four in the morning of its own clock. */
  readonly daily: Readonly<Record<string, Work>>;
}

/** Does one due job; false when none is due. What fails is put off, and given up after too many attempts. */
export async function runOneJob({ once, daily }: Works): Promise<boolean> {
  const works: Works["once"] = { ...once, ...daily };
  const job = await takeJob(Object.keys(works), HELD_S);
  if (job === null) return false;
  const done = await works[job.kind]!(job).catch((problem: unknown) => tell(job, problem));
  if (done === "put-off") await putOffJob(job, waitAfter(job.attempts));
  else await endJob(job);
  return true;
}

/** Looks for due jobs until the signal; one at a time, so that people's requests come first. */
export async function runJobs(works: Works, signal: AbortSignal): Promise<void> {
  let tendAt = 0;
  while (!signal.aborted) {
    try {
      if (Date.now() >= tendAt) {
        await putDailyJobs(Object.keys(works.daily));
        await forgetJobs();
        tendAt = Date.now() + TEND_EVERY_MS;
      }
      while (!signal.aborted && (await runOneJob(works)));
    } catch (problem) {
      console.error(`jobs: the database did not answer (${nameOf(problem)})`);
    }
    await delay(LOOK_EVERY_MS, undefined, { signal, ref: false }).catch(() => {});
  }
}

/** Ids and the kind of failure only: what a message of it may hold is somebody's name. */
function tell(job: HeldJob, problem: unknown): "put-off" {
  const wait = waitAfter(job.attempts);
  const next = wait === null ? "given up" : `again in ${wait} s`;
  console.error(`job ${job.kind} ${job.id}, attempt ${job.attempts}: ${nameOf(problem)}; ${next}`);
  return "put-off";
}

const nameOf = (problem: unknown) =>
  problem instanceof Error ? [problem.name, (problem as { code?: unknown }).code].filter(Boolean).join(" ") : "unknown";
