"use client";

import { Section } from "@/components/ui/section";
import { fieldsWords } from "@/lib/words/en/fields";
import { recoverWords } from "@/lib/words/en/recover";
import { valueAt } from "../form/draft";
import { OneOf, Words, YesNo } from "../form/fields";
import { useForm } from "../form/form-context";
import { PadField } from "../form/pad-field";

/** The cases the recovery rule itself provides for, each with what it asks to be shown. */
export function RecoveryAlternative() {
  const { draft, set } = useForm();
  const code = valueAt(draft, "alternative.code");
  return (
    <Section title={recoverWords.alternative} lead={recoverWords.alternativeLead}>
      <OneOf
        at="alternative.code"
        label={recoverWords.caseOfTheRule}
        options={[
          { value: "none", label: recoverWords.levelIsReached },
          { value: "level-unattainable", label: recoverWords.aLeakOrContamination },
          { value: "found-at-atmosphere", label: recoverWords.foundAt0Psig },
          { value: "isolated-part", label: recoverWords.onlyAnIsolatedPart },
          { value: "non-major-repair", label: recoverWords.noMajorRepair },
        ]}
        onChoose={(chosen) => set("alternative", chosen === "none" ? null : { code: chosen })}
      />
      {code === "level-unattainable" && (
        <>
          <OneOf
            at="alternative.because"
            label={recoverWords.becauseOf}
            options={[
              { value: "leak", label: recoverWords.aLeak },
              { value: "contamination", label: recoverWords.contamination },
            ]}
          />
          <Words at="alternative.evidence" label={recoverWords.whereItLeaks} long />
          <OneOf
            at="alternative.soundPartsIsolated"
            label={recoverWords.soundPartsIsolated}
            columns={3}
            options={[
              { value: "yes", label: fieldsWords.yes },
              { value: "not-possible", label: recoverWords.notPossible },
              { value: "no", label: fieldsWords.no },
            ]}
          />
        </>
      )}
      {code === "found-at-atmosphere" && (
        <>
          <PadField
            at="alternative.foundGaugeKPa"
            label={recoverWords.gaugeAsFound}
            quantity="gaugePressure"
            usual={[-10, 10]}
          />
          <Words at="alternative.evidence" label={recoverWords.howItWasFound} long />
        </>
      )}
      {code === "isolated-part" && (
        <Words at="alternative.isolatedBy" label={recoverWords.isolatedByWhichValves} long />
      )}
      {code === "non-major-repair" && (
        <>
          <Words at="alternative.repair" label={recoverWords.theRepair} long />
          <YesNo at="alternative.majorPartRemoved" label={recoverWords.compressorCondenserEvaporator} />
          <YesNo at="alternative.evacuatedAfterwards" label={recoverWords.itWillBeEvacuated} />
        </>
      )}
    </Section>
  );
}
