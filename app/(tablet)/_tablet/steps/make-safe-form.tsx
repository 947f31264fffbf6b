"use client";

import { Facts, Section } from "@/components/ui/section";
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
    <EvidenceForm {...props} step="make_safe" blank={blank} verb="It is safe: record">
      <OwnKit />
      <Nameplate />
      <Section title="Electrical">
        <YesNo at="lockedOut" label="Locked out and tagged" />
        <YesNo at="provenDead" label="Tested dead" hint="Tester proved before and after." />
        <YesNo at="storedEnergyDischarged" label="Stored energy discharged" hint="Capacitors." />
        <Words at="lockedOutBy" label="Locked out by" optional />
      </Section>
      <Section title="Place">
        <YesNo at="ventilated" label="Area ventilated" />
        <YesNo at="ignitionSourcesControlled" label="Ignition sources under control" />
      </Section>
      <Section title="Unit">
        <YesNo at="refrigerantIdentified" label="Refrigerant identified" />
        <YesNo at="designPressuresRead" label="Design pressures read off the nameplate" />
      </Section>
      {flammable && (
        <Section
          title="For a flammable refrigerant"
          lead="Asked for as long as the refrigerant is flammable or not identified."
        >
          <YesNo at="flammable.detectorOn" label="Gas detector on, at floor level" />
          <Words at="flammable.detector" label="Which detector" optional />
          <YesNo at="flammable.zoneMarked" label="Work zone marked, sign up" />
          <YesNo at="flammable.ignitionSourcesRemoved" label="No ignition source in the zone" />
          <YesNo at="flammable.extinguisherAtHand" label="Extinguisher within reach" />
        </Section>
      )}
      <Words at="note" label="Note" optional long />
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
    value === null || value === undefined ? "not known" : words(value);
  return (
    <Section
      title="As the register has it"
      lead="Hold it against the nameplate. Where it differs, say so under “Cannot do this”."
    >
      <Facts
        items={[
          {
            term: "Refrigerant",
            value:
              fact?.state === "identified"
                ? `${fact.refrigerant}, class ${fact.safetyClass}`
                : fact?.state === "mixed"
                  ? "a mixture"
                  : "not identified",
          },
          { term: "Full charge", value: known(circuit?.fullChargeKg, (kg) => units.both("mass", kg)) },
          {
            term: "Low side design",
            value: known(circuit?.lowSideDesignKPaGauge, (kPa) => units.both("gaugePressure", kPa)),
          },
          {
            term: "High side design",
            value: known(circuit?.highSideDesignKPaGauge, (kPa) => units.both("gaugePressure", kPa)),
          },
        ]}
      />
    </Section>
  );
}
