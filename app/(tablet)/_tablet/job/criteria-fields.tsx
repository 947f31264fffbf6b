"use client";

import { v7 } from "uuid";
import type { EntryContent, StepId } from "@/lib/hvac/procedure";
import { type Draft, valueAt } from "../form/draft";
import { Words } from "../form/fields";
import { PadField } from "../form/pad-field";

/** What the maker's instruction asks for at a step that has criteria. */
export function CriteriaFields({ step }: { step: StepId }) {
  return (
    <>
      {step === "hold" && (
        <>
          <PadField at="values.targetMicron" label="Start at or below" quantity="vacuum" usual={[100, 2000]} />
          <PadField at="values.holdMinutes" label="Hold for" quantity="minutes" usual={[5, 60]} />
          <PadField at="values.maxFinalMicron" label="End at or below" quantity="vacuum" usual={[250, 2600]} />
          <PadField
            at="values.maxSteadyRiseMicronPerMin"
            label="Steady rise at most, micron a minute"
            quantity="count"
            usual={[1, 10]}
          />
        </>
      )}
      {step === "evacuate" && (
        <>
          <PadField at="values.targetMicron" label="Pump down to" quantity="vacuum" usual={[100, 2000]} />
          <PadField at="values.dwellMinutes" label="Pump on after that for" quantity="minutes" mayBeUnknown />
        </>
      )}
      {step === "pressure_test" && (
        <>
          <PadField at="values.testPressureKPaGauge" label="Test pressure" quantity="gaugePressure" />
          <PadField at="values.holdMinutes" label="Hold for" quantity="minutes" usual={[10, 1440]} />
          <PadField at="values.maxLeakKPaPerHour" label="Loss at most, in an hour" quantity="kiloPascalStep" />
        </>
      )}
      {step === "leak_check" && (
        <PadField at="values.maxSensitivityGramPerYear" label="Detector at least as fine as" quantity="leakRate" />
      )}
      <Words at="document" label="Document" hint="Name, number and page of the maker's instruction." />
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
