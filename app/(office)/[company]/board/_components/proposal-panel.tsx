"use client";

import { Button } from "@/components/ui/button";
import { ErrorNotice } from "@/components/ui/notices";
import { Section } from "@/components/ui/section";
import { StateShape } from "@/components/ui/state-mark";
import type { Difference } from "@/lib/work/board/differences";
import type { ProposalQuestion } from "@/lib/work/board/plan-command";
import type { ProposalState } from "./use-proposal";

const titleOf: Record<ProposalQuestion["want"], string> = {
  rest: "A plan for the rest of the day",
  place: "A place for it",
  absorb: "What to do about it",
};

/** The differences in sentences. All, some or none is accepted; what is not chosen stays exactly where it is. */
export function ProposalPanel(props: {
  state: Exclude<ProposalState, { step: "none" }>;
  onToggle: (id: string) => void;
  onAccept: (chosen: readonly Difference[]) => void;
  onAsk: (question: ProposalQuestion) => void;
  onClose: () => void;
}) {
  const { state } = props;
  const question = state.step === "shown" ? state.proposal.question : state.question;
  return (
    <Section
      title={titleOf[question.want]}
      className="content-start border-b border-hairline pb-4"
      actions={
        <Button kind="plain" onClick={props.onClose}>
          Leave everything
        </Button>
      }
    >
      <div role="status" className="grid gap-1">
        {state.step === "working" && <p>Looking for a plan …</p>}
        {state.step !== "failed" && state.because && (
          <p className="flex items-baseline gap-2 bg-needs-you-wash px-2 py-1 text-small">
            <StateShape state="needs-you" /> <span>{state.because}</span>
          </p>
        )}
        {state.step === "shown" && <p className="text-small text-ink-soft">{countWords(state.proposal.differences)}</p>}
      </div>
      {state.step === "failed" && (
        <ErrorNotice
          happened={state.words}
          safe="Nothing was changed."
          action={<Button onClick={() => props.onAsk(state.question)}>Ask again</Button>}
        />
      )}
      {state.step === "shown" && <Shown {...props} state={state} />}
    </Section>
  );
}

function Shown(props: {
  state: Extract<ProposalState, { step: "shown" }>;
  onToggle: (id: string) => void;
  onAccept: (chosen: readonly Difference[]) => void;
}) {
  const { proposal, chosen } = props.state;
  const { differences, open, notes } = proposal;
  const accepted = differences.filter(({ id }) => chosen.has(id));
  return (
    <>
      <ul className="grid max-h-[50dvh] overflow-y-auto">
        {differences.map((each) => (
          <li key={each.id} className="border-b border-hairline py-2">
            <label className="grid grid-cols-[auto_1fr] gap-x-2">
              <input
                type="checkbox"
                className="mt-1 size-4"
                checked={chosen.has(each.id)}
                onChange={() => props.onToggle(each.id)}
              />
              <span className="grid gap-0.5">
                <span>{each.words}</span>
                {each.promise && (
                  <span
                    className={each.breaksPromise || each.kind === "dropped" ? "text-small text-refused" : "text-small"}
                  >
                    {each.promise}
                  </span>
                )}
                {each.reason && <span className="text-small text-ink-soft">{each.reason}</span>}
              </span>
            </label>
          </li>
        ))}
      </ul>
      {open.length > 0 && (
        <details open={differences.length === 0}>
          <summary className="min-h-8 cursor-pointer">Without a place: {open.length}</summary>
          <ul className="grid gap-1 text-small">
            {open.map(({ id, words }) => (
              <li key={id}>{words}</li>
            ))}
          </ul>
        </details>
      )}
      {notes.length > 0 && (
        <details>
          <summary className="min-h-8 cursor-pointer">What was assumed: {notes.length}</summary>
          <ul className="grid gap-1 text-small text-ink-soft">
            {notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </details>
      )}
      {differences.length > 0 && (
        <div className="flex flex-wrap gap-2">
          <Button
            kind="action"
            aria-disabled={accepted.length === 0 || undefined}
            onClick={() => accepted.length > 0 && props.onAccept(accepted)}
          >
            {accepted.length === differences.length ? "Accept all" : `Accept the ${accepted.length} chosen`}
          </Button>
        </div>
      )}
    </>
  );
}

function countWords(differences: readonly Difference[]): string {
  if (differences.length === 0) return "Nothing to change: what stands is as good as can be found.";
  const of = (kind: Difference["kind"]) => differences.filter((each) => each.kind === kind).length;
  const parts = [
    [of("new"), "new"],
    [of("moved"), "moved"],
    [of("dropped"), "without a place afterwards"],
  ] as const;
  const words = parts.filter(([n]) => n > 0).map(([n, word]) => `${n} ${word}`);
  return `${words.join(", ")}. Nothing else moves, and nothing before you accept.`;
}
