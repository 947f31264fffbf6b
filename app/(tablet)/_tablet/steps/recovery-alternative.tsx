"use client";

import { Section } from "@/components/ui/section";
import { valueAt } from "../form/draft";
import { OneOf, Words, YesNo } from "../form/fields";
import { useForm } from "../form/form-context";
import { PadField } from "../form/pad-field";

/** The cases the recovery rule itself provides for, each with what it asks to be shown. */
export function RecoveryAlternative() {
  const { draft, set } = useForm();
  const code = valueAt(draft, "alternative.code");
  return (
    <Section
      title="Where the level cannot be or need not be reached"
      lead="Only if one of the rule's own cases holds; each asks for its evidence."
    >
      <OneOf
        at="alternative.code"
        label="Case of the rule"
        options={[
          { value: "none", label: "None: the level is reached" },
          { value: "level-unattainable", label: "A leak or contamination keeps it from being reached" },
          { value: "found-at-atmosphere", label: "Found at 0 psig" },
          { value: "isolated-part", label: "Only an isolated part is opened" },
          { value: "non-major-repair", label: "No major repair, not evacuated to the air afterwards" },
        ]}
        onChoose={(chosen) => set("alternative", chosen === "none" ? null : { code: chosen })}
      />
      {code === "level-unattainable" && (
        <>
          <OneOf
            at="alternative.because"
            label="Because of"
            options={[
              { value: "leak", label: "A leak" },
              { value: "contamination", label: "Contamination" },
            ]}
          />
          <Words at="alternative.evidence" label="Where it leaks, or what is in it" long />
          <OneOf
            at="alternative.soundPartsIsolated"
            label="Sound parts isolated and brought to the level"
            columns={3}
            options={[
              { value: "yes", label: "Yes" },
              { value: "not-possible", label: "Not possible" },
              { value: "no", label: "No" },
            ]}
          />
        </>
      )}
      {code === "found-at-atmosphere" && (
        <>
          <PadField at="alternative.foundGaugeKPa" label="Gauge as found" quantity="gaugePressure" usual={[-10, 10]} />
          <Words at="alternative.evidence" label="How it was found empty" long />
        </>
      )}
      {code === "isolated-part" && <Words at="alternative.isolatedBy" label="Isolated by which valves" long />}
      {code === "non-major-repair" && (
        <>
          <Words at="alternative.repair" label="The repair" long />
          <YesNo
            at="alternative.majorPartRemoved"
            label="Compressor, condenser, evaporator or heat exchanger comes out"
          />
          <YesNo at="alternative.evacuatedAfterwards" label="It will be evacuated to the air afterwards" />
        </>
      )}
    </Section>
  );
}
