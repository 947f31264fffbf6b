"use client";

import { classNames } from "@/components/ui/class-names";
import { StateShape, stateWord } from "@/components/ui/state-mark";
import type { JobState, StepState } from "@/lib/hvac/procedure";
import { STEP_IDS, type StepId, stepName } from "@/lib/hvac/procedure";
import { jobWords } from "@/lib/words/en/job";

export type Rung = StepId | "closing";
export const RUNGS: readonly Rung[] = [...STEP_IDS, "closing"];

export function rungName(rung: Rung): string {
  return rung === "closing" ? jobWords.closeTheJob : stepName(rung);
}

/** The procedure at the side: shapes alone where the tablet stands upright, names beside them where there is room. */
export function JobLadder(props: { state: JobState; chosen: Rung; onChoose: (rung: Rung) => void }) {
  return (
    <nav aria-label={jobWords.stepsOfThisJob} className="sticky top-15 max-h-[calc(100dvh-8.75rem)] overflow-y-auto">
      <ol className="grid">
        {RUNGS.map((rung) => {
          const { shape, word } = standingOf(props.state, rung);
          const current = rung === props.chosen;
          return (
            <li key={rung}>
              <button
                type="button"
                aria-current={current ? "step" : undefined}
                onClick={() => props.onChoose(rung)}
                className={classNames(
                  "flex min-h-(--control) w-full min-w-(--control) items-center justify-center gap-2.5 px-2 py-1 text-left leading-tight hover:bg-sunk wide:justify-start wide:px-4",
                  current && "bg-sunk font-semibold shadow-[inset_3px_0_0_var(--action)]",
                )}
              >
                <StateShape state={shape} className="translate-y-0 text-[1.25em]" />
                <span className="sr-only wide:not-sr-only wide:grid">
                  <span>{rungName(rung)}</span>
                  <span className="text-small font-normal text-ink-soft">
                    <span className="sr-only">, </span>
                    {word}
                  </span>
                </span>
              </button>
            </li>
          );
        })}
      </ol>
    </nav>
  );
}

function standingOf(state: JobState, rung: Rung) {
  if (rung === "closing") {
    if (state.status === "closed") return { shape: "proven" as const, word: jobWords.closed };
    return state.missingForClose.length === 0
      ? { shape: "working" as const, word: jobWords.mayClose }
      : { shape: "waiting" as const, word: jobWords.missing(state.missingForClose.length) };
  }
  const step = state.steps.find((each) => each.step === rung);
  return step ? { shape: step.status, word: stepWord(step) } : { shape: "waiting" as const, word: stateWord.waiting };
}

/** A step's standing in a word or two. */
export function stepWord(step: StepState): string {
  if (step.settledBy === "skip") return jobWords.leftOut;
  if (step.settledBy === "override") return jobWords.overridden;
  switch (step.status) {
    case "proven":
      return jobWords.proven;
    case "working":
      return jobWords.now;
    case "waiting":
      return step.invalidated.length > 0 ? jobWords.again : jobWords.waiting;
    case "needs-you":
      return step.override === "asked" ? jobWords.supervisorAsked : jobWords.lookAtThis;
    case "refused":
      return jobWords.failed;
    case "cannot-say":
      return jobWords.notProven;
  }
}
