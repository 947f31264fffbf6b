import type { Routes } from "./routes";

/** Why a job is open on this plan, in words. */
export function explainOpenJob(routes: Routes, job: number): string {
  const { instance } = routes;
  const { problem, allowed, technicianCount: m } = instance;
  const { skills } = problem.jobs[job]!;
  if (!allowed.subarray(job * m, (job + 1) * m).includes(1))
    return `nobody with ${skills.join(" and ") || "leave to do it"}`;
  return "nobody able to do it has time left";
}
