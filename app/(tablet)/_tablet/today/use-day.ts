"use client";

import { useDevice } from "../device/device-context";
import { useKeptPage } from "../device/use-page";
import type { Day } from "./day";

/** Today and tomorrow of the person at the tablet. */
export function useDay() {
  const { desk } = useDevice();
  return useKeptPage<Day>("today", `/api/${desk.slug}/today`);
}
