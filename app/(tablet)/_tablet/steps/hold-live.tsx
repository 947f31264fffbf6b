"use client";

import { useMemo } from "react";
import { Facts } from "@/components/ui/section";
import { type State, StateMark } from "@/components/ui/state-mark";
import type { HoldVerdict } from "@/lib/hvac";
import { holdWords } from "@/lib/words/en/hold";
import { useForm } from "../form/form-context";
import { useJobHere } from "../job/job-context";
import type { HoldSaid } from "../judging/answer";
import { useAnswer } from "../judging/use-answer";
import { LiveNumber } from "../units/live-number";
import { useUnits } from "../units/unit-choices";
import { figureWords, recordOfDraft, saysHeading, trendWords } from "./hold-judging";
import { HoldPicture } from "./hold-picture";
import { vacuumReadings } from "./readings";

/** The hold while it runs: the number, its trend, the picture, what the engine says and wants next. Nothing else. */
export function HoldLive() {
  const { job } = useJobHere();
  const { draft } = useForm();
  const units = useUnits();
  const readings = vacuumReadings(draft.record, job.traces, draft._live);
  const record = useMemo(() => recordOfDraft(draft, job), [draft, job]);
  const said = useAnswer("hold", record);
  const last = readings.at(-1);
  if (!last) return null;
  return (
    <div className="grid grid-cols-[minmax(0,1fr)] gap-3 desk:grid-cols-[minmax(0,1fr)_21rem] desk:items-start desk:gap-8">
      <div className="grid grid-cols-[minmax(0,1fr)] gap-3">
        <LiveNumber quantity="vacuum" wire={last.micron} />
        <p className="text-title first-letter:uppercase">{trendWords(readings, units.pace)}</p>
        <HoldPicture
          readings={readings}
          judgement={said?.judgement ?? null}
          wallTemperatureC={typeof draft.wallTemperatureC === "number" ? draft.wallTemperatureC : null}
        />
      </div>
      {said ? (
        <Verdict said={said} lastMicron={last.micron} />
      ) : record ? (
        <StateMark state="working" word={holdWords.beingJudged} />
      ) : (
        <StateMark state="cannot-say" word={holdWords.describeCircuitAndGauge} />
      )}
    </div>
  );
}

/** Verdict, reasons, figures with their intervals, and the next action. */
function Verdict({ said, lastMicron }: { said: HoldSaid; lastMicron: number }) {
  const { judgement } = said;
  const { nextAction } = judgement;
  return (
    <div className="grid gap-3">
      <p role="status" className="text-title">
        <StateMark {...holdVerdictMark(judgement.verdict)} />
      </p>
      <ul className="grid list-disc gap-1 pl-6">
        {judgement.reasons.map((reason) => (
          <li key={reason.code}>{reason.text}</li>
        ))}
      </ul>
      <p className="border-l-3 border-action bg-sunk px-4 py-3 font-semibold">{holdWords.next(nextAction.text)}</p>
      <HoldFigures said={said} lastMicron={lastMicron} />
    </div>
  );
}

/** The figures of a judgement, each with how sure it is. */
export function HoldFigures({ said, lastMicron }: { said: HoldSaid; lastMicron: number | undefined }) {
  const units = useUnits();
  const { leak, noLeakAbove, settlesAt } = figureWords(said, (micron) => units.words("vacuum", micron), units.pace);
  return (
    <Facts
      items={[
        ...(leak ? [{ term: holdWords.steadyRise, value: leak }] : []),
        ...(noLeakAbove ? [{ term: holdWords.smallestLeakShown, value: noLeakAbove }] : []),
        ...(settlesAt && saysHeading(said.judgement, lastMicron)
          ? [{ term: holdWords.headingFor, value: settlesAt }]
          : []),
        { term: holdWords.rules, value: said.judgement.rulesVersion },
      ]}
    />
  );
}

export function holdVerdictMark(verdict: HoldVerdict): { state: State; word: string } {
  switch (verdict) {
    case "dry-and-tight":
      return { state: "proven", word: holdWords.dryAndTight };
    case "wet":
      return { state: "refused", word: holdWords.wet };
    case "leaking":
      return { state: "refused", word: holdWords.leaking };
    case "wet-and-leaking":
      return { state: "refused", word: holdWords.wetAndLeaking };
    case "unproven":
      return { state: "cannot-say", word: holdWords.notProvenYet };
  }
}
