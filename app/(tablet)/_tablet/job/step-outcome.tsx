"use client";

import type { ReactNode } from "react";
import { StateMark } from "@/components/ui/state-mark";
import type { StepState } from "@/lib/hvac/procedure";
import { jobWords } from "@/lib/words/en/job";
import { stepWord } from "./job-ladder";

/** How a step stands and why: its verdict's reasons, what is missing, what took it away. */
export function StepOutcome({ standing, children }: { standing: StepState; children?: ReactNode }) {
  const reasons = standing.settledBy === null ? standing.missing : (standing.verdict?.reasons ?? []);
  return (
    <div className="grid gap-2 border-y border-hairline py-3">
      <StateMark state={standing.status} word={stepWord(standing)} />
      {reasons.length > 0 && (
        <ul className="grid list-disc gap-1 pl-6">
          {reasons.map((reason) => (
            <li key={`${reason.code} ${reason.text}`}>{reason.text}</li>
          ))}
        </ul>
      )}
      {standing.invalidated.map((lost) => (
        <p key={lost.entry} className="text-ink-soft">
          {jobWords.earlierNoLongerCounts(lost.text)}
        </p>
      ))}
      {children}
    </div>
  );
}
