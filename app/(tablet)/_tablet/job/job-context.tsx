"use client";

import { createContext, useContext } from "react";
import type { StepId, StepState } from "@/lib/hvac/procedure";
import type { Rung } from "./job-ladder";
import type { OpenJob } from "./use-job";

export interface JobHere {
  readonly job: OpenJob;
  readonly rung: Rung;
  readonly choose: (rung: Rung) => void;
}

const JobContext = createContext<JobHere | null>(null);
export const JobProvider = JobContext.Provider;

export function useJobHere(): JobHere {
  const here = useContext(JobContext);
  if (!here) throw new Error("no job around this component");
  return here;
}

export function stepOf(job: OpenJob, step: StepId): StepState {
  const found = job.state.steps.find((each) => each.step === step);
  if (!found) throw new Error(`a job without the step ${step}`);
  return found;
}
