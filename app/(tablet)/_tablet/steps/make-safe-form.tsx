"use client";

import { Facts, Section } from "@/components/ui/section";
import { fieldsWords } from "@/lib/words/en/fields";
import { makeSafeWords } from "@/lib/words/en/make-safe";
import { useDevice } from "../device/device-context";
import { Words, YesNo } from "../form/fields";
import { EvidenceForm, type StepFormProps } from "../job/evidence-form";
import { useJobHere } from "../job/job-context";
import { useUnits } from "../units/unit-choices";
import { OwnKit } from "./own-kit";

export function MakeSafeForm(props: StepFormProps) {
  const { person } = useDevice();
  const { job } = useJobHere();
  const { flammable } = job.state;
  const blank = () => ({
    lockedOutBy: person.name,
    flammable: flammable ? { detector: null } : null,
    photos: [],
    note: null,
  });
  return (
    <EvidenceForm {...props} step="make_safe" blank={blank} verb={makeSafeWords.itIsSafeRecord}>
      <OwnKit />
      <Nameplate />
      <Section title={makeSafeWords.electrical}>
        <YesNo at="lockedOut" label={makeSafeWords.lockedOutAndTagged} />
        <YesNo at="provenDead" label={makeSafeWords.testedDead} hint={makeSafeWords.testerProvedBefore} />
        <YesNo
          at="storedEnergyDischarged"
          label={makeSafeWords.storedEnergyDischarged}
          hint={makeSafeWords.capacitors}
        />
        <Words at="lockedOutBy" label={makeSafeWords.lockedOutBy} optional />
      </Section>
      <Section title={makeSafeWords.place}>
        <YesNo at="ventilated" label={makeSafeWords.areaVentilated} />
        <YesNo at="ignitionSourcesControlled" label={makeSafeWords.ignitionSourcesUnderControl} />
      </Section>
      <Section title={makeSafeWords.unit}>
        <YesNo at="refrigerantIdentified" label={makeSafeWords.refrigerantIdentified} />
        <YesNo at="designPressuresRead" label={makeSafeWords.designPressuresReadOff} />
      </Section>
      {flammable && (
        <Section title={fieldsWords.forAFlammableRefrigerant} lead={makeSafeWords.askedForAsLong}>
          <YesNo at="flammable.detectorOn" label={makeSafeWords.gasDetector} />
          <Words at="flammable.detector" label={makeSafeWords.whichDetector} optional />
          <YesNo at="flammable.zoneMarked" label={makeSafeWords.workZoneMarkedSign} />
          <YesNo at="flammable.ignitionSourcesRemoved" label={makeSafeWords.noIgnitionSource} />
          <YesNo at="flammable.extinguisherAtHand" label={makeSafeWords.extinguisherWithinReach} />
        </Section>
      )}
      <Words at="note" label={fieldsWords.note} optional long />
    </EvidenceForm>
  );
}

/** The circuit as the register has it: to be held against the plate on the unit. */
function Nameplate() {
  const { job } = useJobHere();
  const units = useUnits();
  const { circuit } = job.state;
  const fact = circuit?.refrigerant;
  const known = (value: number | null | undefined, words: (value: number) => string) =>
    value === null || value === undefined ? makeSafeWords.notKnown : words(value);
  return (
    <Section title={makeSafeWords.asTheRegisterHas} lead={makeSafeWords.holdItAgainst}>
      <Facts
        items={[
          {
            term: makeSafeWords.refrigerant,
            value:
              fact?.state === "identified"
                ? makeSafeWords.refrigerantAndClass(fact.refrigerant, fact.safetyClass)
                : fact?.state === "mixed"
                  ? makeSafeWords.aMixture
                  : makeSafeWords.notIdentified,
          },
          { term: makeSafeWords.fullCharge, value: known(circuit?.fullChargeKg, (kg) => units.both("mass", kg)) },
          {
            term: makeSafeWords.lowSideDesign,
            value: known(circuit?.lowSideDesignKPaGauge, (kPa) => units.both("gaugePressure", kPa)),
          },
          {
            term: makeSafeWords.highSideDesign,
            value: known(circuit?.highSideDesignKPaGauge, (kPa) => units.both("gaugePressure", kPa)),
          },
        ]}
      />
    </Section>
  );
}
