"use client";

import { Callout } from "@/components/ui/notices";
import { Section } from "@/components/ui/section";
import { type Draft, valueAt } from "../form/draft";
import { OneOf, Words, YesNo } from "../form/fields";
import { useForm } from "../form/form-context";
import { PadField } from "../form/pad-field";
import { EvidenceForm, type StepFormProps } from "../job/evidence-form";
import { useJobHere } from "../job/job-context";
import { ChargeBasis } from "./charge-basis";
import { ChargeCylinders } from "./charge-cylinders";
import { ToolChoice } from "./tool-choice";
import { scaleFacts } from "./tool-facts";

export function ChargeForm(props: StepFormProps) {
  const { job } = useJobHere();
  const blank = (): Draft => ({
    cylinders: [],
    scale: { calibrationDueOn: null },
    flammable: job.state.flammable ? { roomAreaM2: null, mountingHeight: null } : null,
    photos: [],
    note: null,
  });
  return (
    <EvidenceForm {...props} step="break_and_charge" blank={blank} verb="Record the charge">
      <Fields />
    </EvidenceForm>
  );
}

function Fields() {
  const { job } = useJobHere();
  const { draft } = useForm();
  return (
    <>
      <OneOf
        at="brokenWith"
        label="The vacuum was broken with"
        options={[
          { value: "refrigerant-vapour", label: "Refrigerant vapour" },
          { value: "metered-liquid", label: "Liquid, metered in", detail: "blends leave the cylinder as liquid" },
          { value: "factory-charge", label: "The factory charge", detail: "service valves opened" },
          { value: "own-receiver", label: "The system's own receiver", detail: "after a pump-down" },
          { value: "nitrogen", label: "Nitrogen" },
          { value: "air", label: "Air" },
        ]}
      />
      {(draft.brokenWith === "air" || draft.brokenWith === "nitrogen") && (
        <Callout kind="note" title="The evacuation is lost">
          The circuit is evacuated and held again before it is charged.
        </Callout>
      )}
      <YesNo at="compressorOffUnderVacuum" label="The compressor stayed dead under vacuum" />
      <ChargeBasis />
      <Section title="On the scale">
        <ToolChoice at="scale" kind="scale" label="Scale" fill={scaleFacts} />
        <PadField at="scale.resolutionKg" label="Smallest step of the scale" quantity="mass" usual={[0.001, 0.1]} />
        <ChargeCylinders />
        <PadField
          at="weighedInKg"
          label="Net mass into the circuit"
          hint="Filled from the cylinders above. Below zero when it was taken out."
          quantity="signedMass"
        />
      </Section>
      {job.state.flammable && (
        <Section title="For a flammable refrigerant">
          <PadField at="flammable.chargeLimitKg" label="Charge limit for this room" quantity="mass" />
          <Words
            at="flammable.chargeLimitFrom"
            label="The limit stands in"
            hint="The maker's instruction or the product's listing."
          />
          <PadField at="flammable.roomAreaM2" label="Room area" quantity="areaM2" mayBeUnknown />
          <OneOf
            at="flammable.mountingHeight"
            label="The unit is mounted"
            columns={2}
            options={[
              { value: "floor", label: "On the floor" },
              { value: "window", label: "At a window" },
              { value: "wall", label: "On the wall" },
              { value: "ceiling", label: "On the ceiling" },
            ]}
          />
          <YesNo at="flammable.scaleGrounded" label="Scale and cylinder grounded" />
          <YesNo at="flammable.hosesPurged" label="Hoses purged with nitrogen" />
        </Section>
      )}
      {valueAt(draft, "basis.by") !== undefined && <Words at="note" label="Note" optional long />}
    </>
  );
}
