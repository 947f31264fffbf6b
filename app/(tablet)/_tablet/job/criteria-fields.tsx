"use client";

import { v7 } from "uuid";
import type { EntryContent, StepId } from "@/lib/hvac/procedure";
import { cannotDoWords } from "@/lib/words/en/cannot-do";
import { type Draft, valueAt } from "../form/draft";
import { Words } from "../form/fields";
import { PadField } from "../form/pad-field";

/** What the maker's instruction asks for at a step that has criteria. */
export function CriteriaFields({ step }: { step: StepId }) {
  return (
    <>
      {step === "hold" && (
        <>
          <PadField
            at="values.targetMicron"
            label={cannotDoWords.startAtOrBelow}
            quantity="vacuum"
            usual={[100, 2000]}
          />
          <PadField at="values.holdMinutes" label={cannotDoWords.holdFor} quantity="minutes" usual={[5, 60]} />
          <PadField
            at="values.maxFinalMicron"
            label={cannotDoWords.endAtOrBelow}
            quantity="vacuum"
            usual={[250, 2600]}
          />
          <PadField
            at="values.maxSteadyRiseMicronPerMin"
            label={cannotDoWords.steadyRiseAtMost}
            quantity="count"
            usual={[1, 10]}
          />
        </>
      )}
      {step === "evacuate" && (
        <>
          <PadField at="values.targetMicron" label={cannotDoWords.pumpDownTo} quantity="vacuum" usual={[100, 2000]} />
          <PadField at="values.dwellMinutes" label={cannotDoWords.pumpOnAfter} quantity="minutes" mayBeUnknown />
        </>
      )}
      {step === "pressure_test" && (
        <>
          <PadField at="values.testPressureKPaGauge" label={cannotDoWords.testPressure} quantity="gaugePressure" />
          <PadField at="values.holdMinutes" label={cannotDoWords.holdFor} quantity="minutes" usual={[10, 1440]} />
          <PadField at="values.maxLeakKPaPerHour" label={cannotDoWords.lossAtMost} quantity="pressureStep" />
        </>
      )}
      {step === "leak_check" && (
        <PadField at="values.maxSensitivityGramPerYear" label={cannotDoWords.detectorAtLeast} quantity="leakRate" />
      )}
      <Words at="document" label={cannotDoWords.document} hint={cannotDoWords.documentHint} />
    </>
  );
}

export function criteriaContent(step: StepId, draft: Draft): EntryContent {
  const values = (draft.values ?? {}) as Record<string, unknown>;
  const document = String(valueAt(draft, "document") ?? "").trim();
  const filled =
    step === "hold"
      ? { failAtMicron: null, ...values }
      : step === "evacuate"
        ? { dwellMinutes: null, preCycles: [], ...values }
        : values;
  return {
    kind: "criteria-replaced",
    body: {
      row: { rowId: v7(), origin: "maker", source: document, criteria: { step, values: filled } },
      document,
    },
  } as EntryContent; // checked against the schema before it is saved
}
