"use client";

import { classNames } from "@/components/ui/class-names";
import { StateShape, stateWord } from "@/components/ui/state-mark";
import type { JobState, StepState } from "@/lib/hvac/procedure";
import { STEP_IDS, type StepId, stepName } from "@/lib/hvac/procedure";

export type Rung = StepId | "closing";
export const RUNGS: readonly Rung[] = [...STEP_IDS, "closing"];

export function rungName(rung: Rung): string {
  return rung === "closing" ? "Close the job" : stepName(rung);
}

/** The procedure at the side: shapes alone where the tablet stands upright, names beside them where there is room. */
export function JobLadder(props: { state: JobState; chosen: Rung; onChoose: (rung: Rung) => void }) {
  return (
    <nav aria-label="Steps of this job" className="sticky top-16 max-h-[calc(100dvh-9rem)] overflow-y-auto">
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
    if (state.status === "closed") return { shape: "proven" as const, word: "Closed" };
    return state.missingForClose.length === 0
      ? { shape: "working" as const, word: "May close" }
      : { shape: "waiting" as const, word: `${state.missingForClose.length} missing` };
  }
  const step = state.steps.find((each) => each.step === rung);
  return step ? { shape: step.status, word: stepWord(step) } : { shape: "waiting" as const, word: stateWord.waiting };
}

/** A step's standing in a word or two. */
export function stepWord(step: StepState): string {
  if (step.settledBy === "skip") return "Left out";
  if (step.settledBy === "override") return "Overridden";
  switch (step.status) {
    case "proven":
      return "Proven";
    case "working":
      return "Now";
    case "waiting":
      return step.invalidated.length > 0 ? "Again" : "Waiting";
    case "needs-you":
      return step.override === "asked" ? "Supervisor asked" : "Look at this";
    case "refused":
      return "Failed";
    case "cannot-say":
      return "Not proven";
  }
}
