"use client";

import { useEffect, useState } from "react";
import { StateMark } from "@/components/ui/state-mark";
import type { EntryContent, StepId, StepState } from "@/lib/hvac/procedure";
import { recordWords } from "@/lib/words/en/record";
import { type Draft, evidenceOf } from "../form/draft";
import { ask } from "../judging/ask";
import { useJobHere } from "./job-context";

const WAIT_MS = 350;

/** What the step would be worth if it were recorded as it is typed now; by the same fold that judges it afterwards. */
export function usePreview(step: StepId, draft: Draft): StepState | null {
  const { job } = useJobHere();
  const [standing, setStanding] = useState<StepState | null>(null);
  useEffect(() => {
    let gone = false;
    const timer = setTimeout(async () => {
      const { stepRecordedBody } = await import("@/lib/hvac/schema");
      const parsed = stepRecordedBody.safeParse({ step, evidence: evidenceOf(draft) });
      const content = parsed.success && ({ kind: "step-recorded", body: parsed.data } as EntryContent);
      const state = content ? await ask("fold-with", { entries: job.entries, content }, job.traces) : null;
      if (!gone) setStanding(state?.steps.find((each) => each.step === step) ?? null);
    }, WAIT_MS);
    return () => {
      gone = true;
      clearTimeout(timer);
    };
  }, [step, draft, job.entries, job.traces]);
  return standing;
}

export function Preview({ step, draft }: { step: StepId; draft: Draft }) {
  const standing = usePreview(step, draft);
  if (standing === null) return null;
  const settles = standing.settledBy === "record";
  const reasons = settles
    ? (standing.verdict?.reasons ?? [])
    : standing.missing.filter(({ code }) => code !== "not-proven");
  return (
    <section
      aria-label={recordWords.worthOfThisRecord}
      className="grid gap-1 border-t border-hairline pt-3"
      aria-live="polite"
    >
      <StateMark
        state={settles ? "proven" : standing.status === "refused" ? "refused" : "cannot-say"}
        word={
          settles
            ? recordWords.thisWillSettle
            : standing.status === "refused"
              ? recordWords.thisWillFail
              : recordWords.thisWillNotSettle
        }
      />
      {reasons.length > 0 && (
        <ul className="grid list-disc gap-1 pl-6">
          {reasons.map(({ code, text }) => (
            <li key={`${code} ${text}`}>{text}</li>
          ))}
        </ul>
      )}
    </section>
  );
}
