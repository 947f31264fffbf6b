"use client";

import { useEffect } from "react";
import type { JobId } from "@/lib/ids";
import { useDevice } from "../device/device-context";
import { useKeptPage } from "../device/use-page";
import type { Day } from "./day";

/** Today and tomorrow of the person at the tablet; their jobs are fetched too, so that they open in a cellar. */
export function useDay() {
  const { desk, store, ask } = useDevice();
  const day = useKeptPage<Day>("today", `/api/${desk.slug}/today`);
  const jobs = day.outcome === "fresh" ? day.content?.visits.flatMap((visit) => visit.jobs.map(({ id }) => id)) : [];
  const ids = jobs?.join() ?? "";
  useEffect(() => {
    if (ids === "") return;
    void import("@/lib/sync/device").then(({ keepAhead }) => keepAhead(store, desk, ask, ids.split(",") as JobId[]));
  }, [store, desk, ask, ids]);
  return day;
}
