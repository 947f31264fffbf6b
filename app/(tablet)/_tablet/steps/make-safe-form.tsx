"use client";

import { Facts, Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { listToolFaults } from "@/lib/registry/tool-faults";
import { useDevice } from "../device/device-context";
import { Words, YesNo } from "../form/fields";
import { EvidenceForm, type StepFormProps } from "../job/evidence-form";
import { useJobHere } from "../job/job-context";
import { useUnits } from "../units/unit-choices";

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
      <OwnTools />
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

/** Tools this person brings that should not be leaned on: said before anything is opened, while another can still be fetched. */
function OwnTools() {
  const { person } = useDevice();
  const { job } = useJobHere();
  const today = new Date().toISOString().slice(0, 10);
  const faulty = job.heading.tools
    .filter(({ heldBy }) => heldBy === person.desk.person)
    .map((tool) => ({ ...tool, faults: listToolFaults(tool, today) }))
    .filter(({ faults }) => faults.length > 0);
  if (faulty.length === 0) return null;
  return (
    <Section
      title="Your tools"
      lead="What is measured with these makes the proof weaker. Take another one if you can, or have it seen to first."
    >
      <ul className="grid gap-2">
        {faulty.map(({ id, name, faults }) => (
          <li key={id}>
            <StateMark state="needs-you" word={`${name}: ${faults.join(", ")}`} />
          </li>
        ))}
      </ul>
    </Section>
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
