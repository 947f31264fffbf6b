import type { OpenJob } from "../job/use-job";

/** The barometer as it was last read on this job; nothing where nobody has read it. */
export function lastBarometer(job: OpenJob): { atmosphericKPa?: number } {
  for (const entry of [...job.entries].reverse()) {
    if (entry.kind !== "step-recorded") continue;
    const { evidence } = entry.body;
    if ("atmosphericKPa" in evidence) return { atmosphericKPa: evidence.atmosphericKPa };
  }
  return {};
}
