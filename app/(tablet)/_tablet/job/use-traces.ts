"use client";

import { useEffect } from "react";
import type { JobId, TraceId } from "@/lib/ids";
import { fetchTraces, type KnownTrace, listTraces } from "@/lib/sync/device";
import { useDevice } from "../device/device-context";
import { useLive } from "../device/use-live";
import type { JobHeading } from "./job-heading";

/** The job's traces as far as they are on this device; missing chunks are fetched while there is a network. */
export function useTraces(
  job: JobId,
  heading: JobHeading | null | undefined,
): ReadonlyMap<TraceId, KnownTrace> | undefined {
  const { store, desk, ask } = useDevice();
  const listed = heading?.traces;
  useEffect(() => {
    if (listed) void fetchTraces(store, desk, ask, job, listed);
  }, [store, desk, ask, job, listed]);
  return useLive(`traces ${job}`, ["chunks"], () => listTraces(store, desk, job));
}
