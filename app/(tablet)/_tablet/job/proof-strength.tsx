"use client";

import { useMemo } from "react";
import { Facts, Section } from "@/components/ui/section";
import { type State, StateMark } from "@/components/ui/state-mark";
import { judgeProof, proofFacts, type Strength } from "@/lib/hvac/procedure";
import { twoDigits } from "../steps/hold-judging";
import { useUnits } from "../units/unit-choices";
import { useJobHere } from "./job-context";

/** How strong the proof is, and every reason why it is no stronger. */
export function ProofStrength() {
  const { job } = useJobHere();
  const units = useUnits();
  const proof = useMemo(() => judgeProof(proofFacts(job.state, job.entries)), [job.state, job.entries]);
  const { smallestLeakShownMicronPerMin: smallest, settlesHighMicron } = proof;
  return (
    <Section title="Strength of the proof">
      <p className="text-title">
        <StateMark {...strengthMark(proof.strength)} />
      </p>
      {proof.reasons.length > 0 ? (
        <ul className="grid list-disc gap-1 pl-6">
          {proof.reasons.map((reason) => (
            <li key={reason.code}>
              {reason.text} <span className="text-ink-soft">({reason.atMost} at most)</span>
            </li>
          ))}
        </ul>
      ) : (
        <p>Nothing in the record weakens it.</p>
      )}
      <Facts
        items={[
          ...(smallest === null
            ? []
            : [{ term: "Smallest leak it could have shown", value: `${twoDigits(smallest)} micron a minute` }]),
          ...(settlesHighMicron === null
            ? []
            : [{ term: "Settles below", value: units.words("vacuum", settlesHighMicron) }]),
        ]}
      />
    </Section>
  );
}

function strengthMark(strength: Strength): { state: State; word: string } {
  switch (strength) {
    case "strong":
      return { state: "proven", word: "Strong" };
    case "fair":
      return { state: "proven", word: "Fair" };
    case "weak":
      return { state: "needs-you", word: "Weak" };
    case "none":
      return { state: "refused", word: "None" };
  }
}
