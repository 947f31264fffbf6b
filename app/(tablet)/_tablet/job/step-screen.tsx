"use client";

import { useState } from "react";
import { Button } from "@/components/ui/button";
import { Banner } from "@/components/ui/notices";
import { StateMark } from "@/components/ui/state-mark";
import type { StepId } from "@/lib/hvac/procedure";
import { findTemplate, stepName } from "@/lib/hvac/procedure";
import { jobWords } from "@/lib/words/en/job";
import { stepSentencesWords } from "@/lib/words/en/step-sentences";
import { stepForms } from "../steps/step-forms";
import { CannotDo } from "./cannot-do";
import { stepOf, useJobHere } from "./job-context";
import { stepWord } from "./job-ladder";
import { ReadStep } from "./read-step";
import { StepFrame } from "./step-frame";

/** One step: to be done, to be read, or waiting for what comes before it. */
export function StepScreen({ step }: { step: StepId }) {
  const { job, choose } = useJobHere();
  const [doing, setDoing] = useState<"again" | "correct" | null>(null);
  const standing = stepOf(job, step);
  const lacks = missingNeeds(step);
  const Form = stepForms[step];
  const stopDoing = () => setDoing(null);

  if (doing === "correct" && standing.entry)
    return <Form key="correct" correcting={standing.entry} onDone={stopDoing} onCancel={stopDoing} />;
  if (doing === "again") return <Form key="again" onDone={stopDoing} onCancel={stopDoing} />;
  if (standing.settledBy !== null || standing.entry !== null || job.state.status === "closed")
    return <ReadStep step={step} onAgain={() => setDoing("again")} onCorrect={() => setDoing("correct")} />;
  if (lacks.length > 0)
    return (
      <StepFrame
        sentence={jobWords.comesLater(stepName(step))}
        actions={
          <>
            {job.state.openStep && (
              <Button kind="action" onClick={() => choose(job.state.openStep as StepId)}>
                {jobWords.goTo(stepName(job.state.openStep))}
              </Button>
            )}
            <Button onClick={() => setDoing("again")}>{jobWords.doneAlready}</Button>
          </>
        }
      >
        <StateMark state={standing.status} word={stepWord(standing)} />
        <p>{jobWords.first(lacks.map(stepName).join(", "))}</p>
        <p className="text-ink-soft">{stepSentencesWords[step]}</p>
        <Banner kind="note">{jobWords.outOfOrder}</Banner>
      </StepFrame>
    );
  return <Form key="do" onDone={stopDoing} cannotDo={<CannotDo step={step} />} />;

  function missingNeeds(of: StepId): StepId[] {
    const template = findTemplate(job.state.kindInForce, job.state.templateVersion);
    return (template?.steps[of].needs ?? []).filter((need) => stepOf(job, need).settledBy === null);
  }
}
