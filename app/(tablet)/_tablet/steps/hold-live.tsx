"use client";

import { useMemo } from "react";
import { Facts } from "@/components/ui/section";
import { type State, StateMark } from "@/components/ui/state-mark";
import type { HoldJudgement, HoldVerdict } from "@/lib/hvac";
import { useForm } from "../form/form-context";
import { useJobHere } from "../job/job-context";
import { LiveNumber } from "../units/live-number";
import { useUnits } from "../units/unit-choices";
import { figureWords, recordOfDraft, trendWords } from "./hold-judging";
import { HoldPicture } from "./hold-picture";
import { vacuumReadings } from "./readings";
import { useHoldVerdict } from "./use-hold-verdict";

/** The hold while it runs: the number, its trend, the picture, what the engine says and wants next. Nothing else. */
export function HoldLive() {
  const { job } = useJobHere();
  const { draft } = useForm();
  const readings = vacuumReadings(draft.record, job.traces);
  const record = useMemo(() => recordOfDraft(draft, job), [draft, job]);
  const judgement = useHoldVerdict(record);
  const last = readings.at(-1);
  if (!last) return null;
  return (
    <div className="grid gap-3">
      <LiveNumber quantity="vacuum" wire={last.micron} />
      <p className="text-title">{trendWords(readings)}</p>
      <HoldPicture
        readings={readings}
        judgement={judgement}
        wallTemperatureC={typeof draft.wallTemperatureC === "number" ? draft.wallTemperatureC : null}
      />
      {judgement ? (
        <HoldSaid judgement={judgement} internalVolumeL={Number(draft.internalVolumeL)} />
      ) : (
        <StateMark state="cannot-say" word="Describe circuit and gauge below: then it is judged" />
      )}
    </div>
  );
}

interface Judged {
  judgement: HoldJudgement;
  internalVolumeL: number;
}

/** Verdict, reasons, figures with their intervals, and the next action. */
function HoldSaid({ judgement, internalVolumeL }: Judged) {
  const { nextAction } = judgement;
  return (
    <div className="grid gap-3" aria-live="polite">
      <p className="text-title">
        <StateMark {...holdVerdictMark(judgement.verdict)} />
      </p>
      <ul className="grid list-disc gap-1 pl-6">
        {judgement.reasons.map((reason) => (
          <li key={reason.code}>{reason.text}</li>
        ))}
      </ul>
      <p className="border-l-3 border-action bg-sunk px-4 py-3 font-semibold">Next: {nextAction.text}</p>
      <HoldFigures judgement={judgement} internalVolumeL={internalVolumeL} />
    </div>
  );
}

/** The figures of a judgement, each with how sure it is. */
export function HoldFigures({ judgement, internalVolumeL }: Judged) {
  const units = useUnits();
  const { job } = useJobHere();
  const fact = job.state.circuit?.refrigerant;
  const ground = { internalVolumeL, refrigerant: fact?.state === "identified" ? fact.refrigerant : null };
  const { leak, noLeakAbove, settlesAt } = figureWords(judgement, ground, (micron) => units.words("vacuum", micron));
  return (
    <Facts
      items={[
        ...(leak ? [{ term: "Steady rise", value: leak }] : []),
        ...(noLeakAbove ? [{ term: "Smallest leak it could have shown", value: noLeakAbove }] : []),
        ...(settlesAt ? [{ term: "Heading for", value: settlesAt }] : []),
        { term: "Rules", value: judgement.rulesVersion },
      ]}
    />
  );
}

export function holdVerdictMark(verdict: HoldVerdict): { state: State; word: string } {
  switch (verdict) {
    case "dry-and-tight":
      return { state: "proven", word: "Dry and tight" };
    case "wet":
      return { state: "refused", word: "Wet" };
    case "leaking":
      return { state: "refused", word: "Leaking" };
    case "wet-and-leaking":
      return { state: "refused", word: "Wet and leaking" };
    case "unproven":
      return { state: "cannot-say", word: "Not proven yet" };
  }
}
