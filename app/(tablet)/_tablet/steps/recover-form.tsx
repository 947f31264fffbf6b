"use client";

import { Section } from "@/components/ui/section";
import { valueAt } from "../form/draft";
import { OneOf, Words, YesNo } from "../form/fields";
import { useForm } from "../form/form-context";
import { PadField } from "../form/pad-field";
import { EvidenceForm, type StepFormProps } from "../job/evidence-form";
import { useJobHere } from "../job/job-context";
import { lastBarometer } from "./last-barometer";
import { RecoveryAlternative } from "./recovery-alternative";
import { RecoveryCylinders } from "./recovery-cylinders";
import { RecoveryLevel } from "./recovery-level";
import { ToolChoice } from "./tool-choice";
import { recoveryMachineFacts } from "./tool-facts";

export function RecoverForm(props: StepFormProps) {
  const { job } = useJobHere();
  const { flammable } = job.state;
  const blank = () => ({
    machine: { toolId: null },
    ...lastBarometer(job),
    cylinders: [],
    compressorWorking: null,
    alternative: null,
    flammable: flammable ? {} : null,
    photos: [],
    note: null,
  });
  return (
    <EvidenceForm {...props} step="recover" blank={blank} verb="Record the recovery">
      <RecoverFields />
    </EvidenceForm>
  );
}

function RecoverFields() {
  const { job } = useJobHere();
  const { draft, set } = useForm();
  const byMachine = draft.method === "recovery-machine";
  const small = job.state.circuit?.applianceClass === "small-appliance";
  return (
    <>
      <OneOf
        at="method"
        label="How it is recovered"
        columns={3}
        options={[
          { value: "recovery-machine", label: "Recovery machine" },
          { value: "pump-down", label: "Pump-down", detail: "into condenser or receiver" },
          { value: "passive", label: "System-dependent", detail: "up to 15 lb" },
        ]}
        onChoose={(method) => {
          if (method !== "recovery-machine") set("machine", null);
          else if (draft.machine === null) set("machine", { toolId: null });
        }}
      />
      {byMachine && (
        <Section title="Machine">
          <ToolChoice at="machine" kind="recovery-machine" label="Recovery machine" fill={recoveryMachineFacts} />
          <OneOf
            at="machine.dateClass"
            label="The machine was made"
            options={[
              { value: "on-or-after-1993-11-15", label: "On or after 15 Nov 1993" },
              { value: "before-1993-11-15", label: "Before 15 Nov 1993" },
            ]}
          />
          {valueAt(draft, "machine.ratedForFlammables") === undefined && (
            <YesNo at="machine.ratedForFlammables" label="Rated for flammables" />
          )}
        </Section>
      )}
      <RecoveryLevel />
      <Section title="Gauge">
        <PadField
          at="atmosphericKPa"
          label="Barometer here"
          hint="Not reduced to sea level: what the air weighs at this height."
          quantity="barometer"
          usual={[75, 105]}
        />
        <PadField
          at="finalGaugeKPa"
          label="Lowest pressure reached"
          hint="Vacuum is below zero on the gauge."
          quantity="gaugePressure"
          usual={[-101, 50]}
        />
        <PadField at="waitedMinutes" label="Waited with the machine off" quantity="minutes" usual={[1, 30]} />
        <PadField
          at="afterWaitGaugeKPa"
          label="Pressure after the wait"
          hint="Liquid or oil still boiling off shows as a rise."
          quantity="gaugePressure"
          usual={[-101, 50]}
        />
      </Section>
      {byMachine && <RecoveryCylinders />}
      {small && <YesNo at="compressorWorking" label="The compressor works" />}
      <RecoveryAlternative />
      {job.state.flammable && (
        <Section title="For a flammable refrigerant">
          <YesNo at="flammable.cylinderGrounded" label="Cylinder grounded" />
          <YesNo at="flammable.machineRatedForClass" label="Machine rated for this class" />
        </Section>
      )}
      <Words at="note" label="Note" optional long />
    </>
  );
}
