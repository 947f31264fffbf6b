"use client";

import { useSearchParams } from "next/navigation";
import { useCallback, useEffect, useMemo } from "react";
import { LoadingLines } from "@/components/ui/progress";
import type { JobId } from "@/lib/ids";
import { jobWords } from "@/lib/words/en/job";
import { useDevice } from "../device/device-context";
import { NothingKept } from "../fetch-notice";
import { addressOf } from "../place";
import { ScreenFrame } from "../screen-frame";
import { fetchStepForms } from "../steps/step-forms";
import { ClosingScreen } from "./closing-screen";
import { JobProvider } from "./job-context";
import { RUNGS, type Rung } from "./job-ladder";
import { StepScreen } from "./step-screen";
import { type OpenJob, useJob } from "./use-job";

export function JobScreen({ jobId }: { jobId: string }) {
  const { desk } = useDevice();
  const { reading, refresh } = useJob(jobId as JobId);
  if (reading.at === "open") return <OpenJobScreen job={reading.job} />;
  return (
    <ScreenFrame
      title={jobWords.job}
      back={{ href: addressOf(desk.slug, { screen: "today" }), label: jobWords.backToToday }}
    >
      {reading.at === "reading" ? (
        <LoadingLines lines={6} label={jobWords.beingRead} />
      ) : (
        <NothingKept what={jobWords.thisJob} outcome={reading.outcome} onRetry={() => void refresh()} />
      )}
    </ScreenFrame>
  );
}

function OpenJobScreen({ job }: { job: OpenJob }) {
  const asked = useSearchParams().get("step");
  const chosen = RUNGS.find((rung) => rung === asked);
  const rung: Rung = chosen ?? job.state.openStep ?? "closing";
  const choose = useCallback((next: Rung) => {
    window.history.pushState(null, "", `${window.location.pathname}?step=${next}`);
    window.scrollTo(0, 0);
  }, []);
  useEffect(fetchStepForms, []);
  const here = useMemo(() => ({ job, rung, choose }), [job, rung, choose]);
  return (
    <JobProvider value={here}>
      {rung === "closing" ? <ClosingScreen /> : <StepScreen key={rung} step={rung} />}
    </JobProvider>
  );
}
