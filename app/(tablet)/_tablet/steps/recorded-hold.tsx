"use client";

import { useMemo } from "react";
import type { EvidenceOf } from "@/lib/hvac/procedure";
import type { Draft } from "../form/draft";
import { useJobHere } from "../job/job-context";
import { judgeDraftHold } from "./hold-judging";
import { HoldFigures } from "./hold-live";
import { HoldPicture } from "./hold-picture";
import { vacuumReadings } from "./readings";

/** A hold that was recorded, drawn and judged anew from its own readings. */
export function RecordedHold({ evidence }: { evidence: EvidenceOf<"hold"> }) {
  const { job } = useJobHere();
  const judgement = useMemo(() => judgeDraftHold(evidence as unknown as Draft, job), [evidence, job]);
  return (
    <div className="grid gap-3">
      <HoldPicture
        readings={vacuumReadings(evidence.record, job.traces)}
        judgement={judgement}
        wallTemperatureC={evidence.wallTemperatureC}
      />
      {judgement && <HoldFigures judgement={judgement} internalVolumeL={evidence.internalVolumeL} />}
    </div>
  );
}
