/** Runs once in each process before it answers. The name of the runtime is put in by the build, which leaves the other branch out. */
export async function register(): Promise<void> {
  if (process.env.NEXT_RUNTIME === "nodejs") {
    const { startJobs } = await import("@/lib/jobs/start-jobs");
    startJobs();
  }
}
