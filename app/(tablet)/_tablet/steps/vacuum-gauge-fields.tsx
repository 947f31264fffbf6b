"use client";

import { fieldsWords } from "@/lib/words/en/fields";
import { PadField } from "../form/pad-field";

/** What a vacuum gauge can tell apart and how true it is: asked wherever its readings are judged. */
export function VacuumGaugeFields() {
  return (
    <>
      <PadField
        at="gauge.resolutionMicron"
        label={fieldsWords.smallestStepOfTheGauge}
        quantity="vacuum"
        usual={[1, 100]}
      />
      <PadField at="gauge.accuracyPercent" label={fieldsWords.accuracyOfTheGauge} quantity="percent" usual={[1, 20]} />
    </>
  );
}
