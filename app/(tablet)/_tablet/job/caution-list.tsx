"use client";

import { Callout } from "@/components/ui/notices";
import type { SafetyClass } from "@/lib/hvac";
import type { StepId } from "@/lib/hvac/procedure";
import { cautionsFor, DEFERRAL_LINE } from "@/lib/hvac/rulebook";
import { jobWords } from "@/lib/words/en/job";
import { useJobHere } from "./job-context";

const SHOWN = 3;
const known: readonly string[] = ["A1", "A2L", "A3", "B2L"] satisfies SafetyClass[];

/** The cautions of a step for the refrigerant at hand, the gravest in sight, above the work they warn of. */
export function CautionList({ step }: { step: StepId }) {
  const { job } = useJobHere();
  const fact = job.state.circuit?.refrigerant;
  const stated = fact && fact.state !== "unknown" ? fact.safetyClass : null;
  const safetyClass = stated !== null && known.includes(stated) ? (stated as SafetyClass) : null;
  const cautions = cautionsFor(step, safetyClass);
  if (cautions.length === 0) return null;
  const [first, rest] = [cautions.slice(0, SHOWN), cautions.slice(SHOWN)];
  return (
    <Callout title={safetyClass ? jobWords.cautions(safetyClass) : jobWords.cautionsOfAllClasses}>
      <ul className="grid list-disc gap-1 pl-5">
        {first.map((caution) => (
          <li key={caution.id}>{caution.text}</li>
        ))}
      </ul>
      {rest.length > 0 && (
        <details className="mt-1">
          <summary className="flex min-h-(--control) cursor-pointer items-center font-semibold text-action">
            {jobWords.moreCautions(rest.length)}
          </summary>
          <ul className="grid list-disc gap-1 pl-5">
            {rest.map((caution) => (
              <li key={caution.id}>{caution.text}</li>
            ))}
          </ul>
        </details>
      )}
      <p className="mt-2 text-small text-ink-soft">{DEFERRAL_LINE}</p>
    </Callout>
  );
}
