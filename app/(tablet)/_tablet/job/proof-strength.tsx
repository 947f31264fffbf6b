"use client";

import { useMemo } from "react";
import { Facts, Section } from "@/components/ui/section";
import { type State, StateMark } from "@/components/ui/state-mark";
import { judgeProof, proofFacts, type Strength } from "@/lib/hvac/procedure";
import { closingWords } from "@/lib/words/en/closing";
import { useUnits } from "../units/unit-choices";
import { useJobHere } from "./job-context";

/** How strong the proof is, and every reason why it is no stronger. */
export function ProofStrength() {
  const { job } = useJobHere();
  const units = useUnits();
  const proof = useMemo(() => judgeProof(proofFacts(job.state, job.entries)), [job.state, job.entries]);
  const { smallestLeakShownMicronPerMin: smallest, settlesHighMicron } = proof;
  return (
    <Section title={closingWords.strengthOfTheProof}>
      <p className="text-title">
        <StateMark {...strengthMark(proof.strength)} />
      </p>
      {proof.reasons.length > 0 ? (
        <ul className="grid list-disc gap-1 pl-6">
          {proof.reasons.map((reason) => (
            <li key={reason.code}>
              {reason.text} <span className="text-ink-soft">{closingWords.atMost(reason.atMost)}</span>
            </li>
          ))}
        </ul>
      ) : (
        <p>{closingWords.nothingWeakensIt}</p>
      )}
      <Facts
        items={[
          ...(smallest === null
            ? []
            : [{ term: closingWords.smallestLeakShown, value: closingWords.aMinute(units.pace(smallest)) }]),
          ...(settlesHighMicron === null
            ? []
            : [{ term: closingWords.settlesBelow, value: units.words("vacuum", settlesHighMicron) }]),
        ]}
      />
    </Section>
  );
}

function strengthMark(strength: Strength): { state: State; word: string } {
  switch (strength) {
    case "strong":
      return { state: "proven", word: closingWords.strong };
    case "fair":
      return { state: "proven", word: closingWords.fair };
    case "weak":
      return { state: "needs-you", word: closingWords.weak };
    case "none":
      return { state: "refused", word: closingWords.none };
  }
}
