"use client";

import { useActionState } from "react";
import { Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { SubmitButton } from "@/components/ui/submit-button";
import { makeToken, revokeToken } from "../token-actions";

export interface ShownToken {
  readonly id: string;
  readonly words: string;
  readonly revoked: boolean;
}

/** Secrets by which an instrument sends its readings without a person: made here, shown once, taken back here. */
export function InstrumentTokens(props: {
  company: string;
  toolId: string;
  tokens: readonly ShownToken[];
  units: readonly string[];
}) {
  const { company, toolId, tokens, units } = props;
  const [made, make] = useActionState(makeToken, null);
  const hidden = (
    <>
      <input type="hidden" name="company" value={company} />
      <input type="hidden" name="toolId" value={toolId} />
    </>
  );
  return (
    <Section
      title="Sends its readings by itself"
      lead={`For a gauge or logger that can call an address. It may send ${units.join(", ")}; the tablet takes what it sent into a step.`}
    >
      {made && (
        <div role="status" className="grid gap-2 border-l-4 border-action bg-sunk p-4">
          <p>
            Give this secret to the instrument now. It is shown once and kept nowhere; whoever has it can send readings
            as this instrument.
          </p>
          <code className="select-all font-mono break-all">{made}</code>
          <p className="text-small text-ink-soft">
            POST /api/readings with the headers <code>Authorization: Bearer …</code> and <code>Idempotency-Key</code>, a
            number of its own for each batch. Body:{" "}
            <code className="break-all">{`{"unit":"${units[0]}","readings":[{"at":"2026-07-01T09:00:00Z","value":300,"temperatureC":21}]}`}</code>
          </p>
        </div>
      )}
      {tokens.length > 0 && (
        <ul className="grid">
          {tokens.map(({ id, words, revoked }) => (
            <li key={id} className="flex flex-wrap items-center gap-x-6 gap-y-2 border-b border-hairline py-2">
              <span>{words}</span>
              {revoked ? (
                <StateMark state="cannot-say" word="Taken back" />
              ) : (
                <form action={revokeToken}>
                  {hidden}
                  <input type="hidden" name="tokenId" value={id} />
                  <SubmitButton kind="danger">Take back</SubmitButton>
                </form>
              )}
            </li>
          ))}
        </ul>
      )}
      <form action={make}>
        {hidden}
        <SubmitButton kind="quiet">Make a secret</SubmitButton>
      </form>
    </Section>
  );
}
