import "server-only";
import { jobsWanted } from "@/lib/env";
import { runJobs } from "./run-jobs";
import { works } from "./works";

/** Has this web process do the jobs of the queue until it ends, unless it was told not to. */
export function startJobs(): void {
  if (!jobsWanted()) return;
  const ending = new AbortController();
  for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => ending.abort());
  void runJobs(works, ending.signal);
}
