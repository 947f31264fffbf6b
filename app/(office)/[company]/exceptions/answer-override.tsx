"use client";

import { useActionState } from "react";
import { SubmitButton } from "@/components/ui/submit-button";
import { TextArea } from "@/components/ui/text-input";
import { answerOverride } from "./actions";

/** Allow or refuse, with a reason that stays in the log. */
export function AnswerOverride(props: { company: string; jobId: string; ask: string }) {
  const [outcome, answer] = useActionState(answerOverride, null);
  const errors: Readonly<Record<string, string>> = outcome && !outcome.ok ? outcome.error.fields : {};
  return (
    <form action={answer} className="grid max-w-prose gap-3">
      <input type="hidden" name="company" value={props.company} />
      <input type="hidden" name="jobId" value={props.jobId} />
      <input type="hidden" name="ask" value={props.ask} />
      <TextArea label="Your reason" name="why" rows={2} error={errors.why ?? errors[""]} />
      <div className="flex flex-wrap gap-2">
        <SubmitButton kind="danger" name="granted" value="no">
          Refuse
        </SubmitButton>
        <SubmitButton kind="quiet" name="granted" value="yes">
          Allow, as weak proof
        </SubmitButton>
      </div>
    </form>
  );
}
