import { Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import type { JobState } from "@/lib/hvac/procedure";
import { stepName } from "@/lib/hvac/procedure";
import { AnswerOverride } from "../../../exceptions/answer-override";

/** Overrides asked for on this job; one that waits can be answered here by a supervisor. */
export function Overrides(props: {
  company: string;
  jobId: string;
  state: JobState;
  names: ReadonlyMap<string, string>;
  canAnswer: boolean;
}) {
  const { overrides } = props.state;
  if (overrides.length === 0) return null;
  const nameOf = (person: string | null) => (person && props.names.get(person)) ?? "somebody no longer here";
  return (
    <Section title="Overrides" lead="An override is a fact forever and counts as weak proof.">
      <ul className="grid">
        {overrides.map((each) => (
          <li key={each.ask} className="grid gap-2 border-b border-hairline py-3">
            <p>
              <span className="font-semibold">{stepName(each.step)}</span>: {each.why}{" "}
              <span className="text-ink-soft">Asked by {nameOf(each.askedBy)}.</span>
            </p>
            {each.answer === "none" && props.canAnswer && (
              <AnswerOverride company={props.company} jobId={props.jobId} ask={each.ask} />
            )}
            {each.answer === "none" && !props.canAnswer && <StateMark state="waiting" word="Waits for a supervisor" />}
            {each.answer !== "none" && (
              <p className="flex flex-wrap gap-3">
                <StateMark
                  state={each.answer === "granted" ? "needs-you" : "refused"}
                  word={
                    each.answer === "granted"
                      ? "Allowed"
                      : each.answer === "refused"
                        ? "Refused"
                        : "Answered twice, differently"
                  }
                />
                <span>
                  {each.answerWhy} <span className="text-ink-soft">{nameOf(each.answeredBy)}</span>
                </span>
                {each.answer === "granted" && !each.stands && <span className="text-ink-soft">No longer stands.</span>}
                {each.ownAnswer && <span className="text-needs-you">Asked and allowed by the same person.</span>}
              </p>
            )}
          </li>
        ))}
      </ul>
    </Section>
  );
}
