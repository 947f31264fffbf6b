"use client";

import { Button } from "@/components/ui/button";
import { Callout } from "@/components/ui/notices";
import { Facts, Section } from "@/components/ui/section";
import type { LogEntry, StepId } from "@/lib/hvac/procedure";
import { stepName } from "@/lib/hvac/procedure";
import { jobWords } from "@/lib/words/en/job";
import { EvidenceFacts } from "../steps/evidence-facts";
import { clockWords, dayWords } from "../today/time-words";
import { CannotDo } from "./cannot-do";
import { stepOf, useJobHere } from "./job-context";
import { rungName } from "./job-ladder";
import { StepFrame } from "./step-frame";
import { StepOutcome } from "./step-outcome";

/** A step that has a record: what it says, what it is worth, and the ways on. */
export function ReadStep(props: { step: StepId; onAgain: () => void; onCorrect: () => void }) {
  const { step } = props;
  const { job, choose } = useJobHere();
  const standing = stepOf(job, step);
  const entry = job.entries.find(({ id }) => id === standing.entry);
  const closed = job.state.status === "closed";
  const settled = standing.settledBy !== null;
  const next = job.state.openStep ?? "closing";
  const alarms = job.state.alarms.filter((alarm) => alarm.entry === entry?.id);
  return (
    <StepFrame
      sentence={settled || closed ? jobWords.settled(stepName(step)) : sentenceNow()}
      actions={
        closed ? undefined : (
          <>
            {settled ? (
              <Button kind="action" onClick={() => choose(next)}>
                {jobWords.goOn(rungName(next))}
              </Button>
            ) : next !== step && standing.status !== "cannot-say" ? (
              <Button kind="action" onClick={() => choose(next)}>
                {jobWords.goTo(rungName(next))}
              </Button>
            ) : (
              <Button kind="action" onClick={props.onAgain}>
                {jobWords.recordItAgain}
              </Button>
            )}
            <CannotDo step={step} />
          </>
        )
      }
    >
      <div className="grid grid-cols-[minmax(0,1fr)] gap-5 desk:grid-cols-[20rem_minmax(0,1fr)] desk:items-start desk:gap-8">
        <div className="grid gap-5">
          <StepOutcome standing={standing} />
          {!settled && !closed && next !== step && (
            <p className="border-l-3 border-action bg-sunk px-4 py-3 font-semibold">
              {jobWords.next(job.state.next.text)}
            </p>
          )}
          {alarms.map((alarm) => (
            <Callout key={alarm.code} kind="note" title={jobWords.onTheRecord}>
              {alarm.text}
            </Callout>
          ))}
          {!closed && entry?.kind === "step-recorded" && (
            <div className="flex flex-wrap gap-3">
              <Button onClick={props.onCorrect}>{jobWords.correctThisRecord}</Button>
              {settled && <Button onClick={props.onAgain}>{jobWords.doTheStepAgain}</Button>}
            </div>
          )}
        </div>
        {entry && <Recorded entry={entry} />}
      </div>
    </StepFrame>
  );

  function sentenceNow() {
    return job.state.next.step === step ? job.state.next.text : jobWords.recordedNotSettled(stepName(step));
  }
}

function Recorded({ entry }: { entry: LogEntry }) {
  const { job } = useJobHere();
  const zone = job.heading.job.site.timeZone;
  const at = `${dayWords(entry.deviceAt, zone, Date.now())} ${clockWords(entry.deviceAt, zone)}`;
  const when = jobWords.recordedWhen(at, entry.stamp !== null);
  const why = entry.supersedes ? [{ term: jobWords.correctedBecause, value: entry.supersedes.why }] : [];
  return (
    <Section title={jobWords.whatWasRecorded} lead={when}>
      {entry.kind === "step-recorded" && <EvidenceFacts record={entry.body} more={why} />}
      {entry.kind === "step-skipped" && (
        <Facts items={[{ term: jobWords.leftOutBecause, value: entry.body.grounds.statement }]} />
      )}
      {entry.kind === "override-asked" && <Facts items={[{ term: jobWords.askedBecause, value: entry.body.why }]} />}
    </Section>
  );
}
