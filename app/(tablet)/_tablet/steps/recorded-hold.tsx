"use client";

import { useMemo } from "react";
import type { EvidenceOf } from "@/lib/hvac/procedure";
import type { Draft } from "../form/draft";
import { useJobHere } from "../job/job-context";
import { useAnswer } from "../judging/use-answer";
import { recordOfDraft } from "./hold-judging";
import { HoldFigures } from "./hold-live";
import { HoldPicture } from "./hold-picture";
import { vacuumReadings } from "./readings";

/** A hold that was recorded, drawn and judged anew from its own readings. */
export function RecordedHold({ evidence }: { evidence: EvidenceOf<"hold"> }) {
  const { job } = useJobHere();
  const record = useMemo(() => recordOfDraft(evidence as unknown as Draft, job), [evidence, job]);
  const said = useAnswer("hold", record);
  const readings = vacuumReadings(evidence.record, job.traces);
  return (
    <div className="grid gap-3">
      <HoldPicture
        readings={readings}
        judgement={said?.judgement ?? null}
        wallTemperatureC={evidence.wallTemperatureC}
      />
      {said && <HoldFigures said={said} lastMicron={readings.at(-1)?.micron} />}
    </div>
  );
}
