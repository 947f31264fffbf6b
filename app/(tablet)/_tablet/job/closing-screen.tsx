"use client";

import { useState } from "react";
import { Button } from "@/components/ui/button";
import { Banner, Callout } from "@/components/ui/notices";
import { Facts, Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import type { Missing } from "@/lib/hvac/procedure";
import { stepName } from "@/lib/hvac/procedure";
import { closingWords } from "@/lib/words/en/closing";
import { fieldsWords } from "@/lib/words/en/fields";
import { CertificateButton } from "../certificate/certificate-button";
import { useUnits } from "../units/unit-choices";
import { CannotDo } from "./cannot-do";
import type { EntryProblem } from "./entry-check";
import { useJobHere } from "./job-context";
import { LogList } from "./log-list";
import { overrideMark } from "./override-mark";
import { ProofStrength } from "./proof-strength";
import { StepFrame } from "./step-frame";

/** The end of the job: what is missing, or the button that closes it. */
export function ClosingScreen() {
  const { job, choose } = useJobHere();
  const { state } = job;
  const units = useUnits();
  const [pending, setPending] = useState(false);
  const [problems, setProblems] = useState<readonly EntryProblem[]>([]);
  const missing = state.missingForClose;
  async function close() {
    setPending(true);
    setProblems(await job.close());
    setPending(false);
  }
  const closed = state.status === "closed";
  const sentence = closed
    ? closingWords.theJobIsClosed
    : missing.length === 0
      ? closingWords.everythingIsProven
      : closingWords.thingsMissing(missing.length);
  return (
    <StepFrame
      sentence={sentence}
      actions={
        closed ? undefined : (
          <>
            {missing.length === 0 ? (
              <Button kind="action" pending={pending} pendingWord={fieldsWords.savingHere} onClick={() => void close()}>
                {closingWords.closeTheJob}
              </Button>
            ) : (
              <Button
                kind="action"
                disabled={state.openStep === null}
                onClick={() => state.openStep && choose(state.openStep)}
              >
                {state.openStep ? closingWords.goTo(stepName(state.openStep)) : closingWords.notClosableYet}
              </Button>
            )}
            <CannotDo step="records" />
          </>
        )
      }
    >
      {problems.length > 0 && (
        <p role="alert" className="font-medium text-refused">
          {closingWords.couldNotBeWritten(problems.map(({ path, message }) => `${path} ${message}`).join("; "))}
        </p>
      )}
      {state.certificate === "stale" && <Banner kind="note">{closingWords.recordedAfterClosing}</Banner>}
      {missing.length > 0 && !closed && <MissingList missing={missing} />}
      {(closed || missing.length === 0) && <ProofStrength />}
      {closed && <CertificateButton />}
      {state.reviews.length > 0 && (
        <Section title={closingWords.aPersonHasToDecide}>
          <ul className="grid gap-2">
            {state.reviews.map((review) => (
              <li key={`${review.code} ${review.step}`}>
                <StateMark state="needs-you" word={review.step ? stepName(review.step) : closingWords.theJob} />{" "}
                {review.text}
              </li>
            ))}
          </ul>
        </Section>
      )}
      {state.overrides.length > 0 && (
        <Section title={closingWords.overrides}>
          <ul className="grid gap-2">
            {state.overrides.map((override) => (
              <li key={override.ask}>
                <StateMark {...overrideMark(override.answer)} /> {stepName(override.step)}: {override.why}
                {override.answerWhy && (
                  <span className="text-ink-soft"> {closingWords.answer(override.answerWhy)}</span>
                )}
              </li>
            ))}
          </ul>
        </Section>
      )}
      {state.alarms.length > 0 && (
        <Callout kind="note" title={closingWords.onTheRecord}>
          <ul className="grid list-disc gap-1 pl-5">
            {state.alarms.map((alarm) => (
              <li key={`${alarm.entry} ${alarm.code}`}>{alarm.text}</li>
            ))}
          </ul>
        </Callout>
      )}
      <Section title={closingWords.refrigerantOfThisJob}>
        <Facts
          items={[
            { term: closingWords.recovered, value: units.both("mass", state.mass.recoveredKg) },
            { term: closingWords.charged, value: units.both("mass", state.mass.chargedKg) },
          ]}
        />
      </Section>
      <LogList />
    </StepFrame>
  );
}

function MissingList({ missing }: { missing: readonly Missing[] }) {
  const { choose } = useJobHere();
  return (
    <ul aria-label={closingWords.whatIsMissing} className="grid">
      {missing.map((lack) => {
        const { step } = lack;
        return (
          <li key={`${lack.step} ${lack.code} ${lack.text}`} className="border-b border-hairline">
            {step ? (
              <button
                type="button"
                onClick={() => choose(step)}
                className="grid min-h-(--control) w-full grid-cols-[minmax(8rem,14rem)_1fr] items-center gap-4 py-2 text-left hover:bg-sunk"
              >
                <span className="font-semibold">{stepName(step)}</span>
                <span>{lack.text}</span>
              </button>
            ) : (
              <p className="flex min-h-(--control) items-center py-2">{lack.text}</p>
            )}
          </li>
        );
      })}
    </ul>
  );
}
