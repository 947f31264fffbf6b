"use client";

import { Callout } from "@/components/ui/notices";
import { Section } from "@/components/ui/section";
import { chargeWords } from "@/lib/words/en/charge";
import { fieldsWords } from "@/lib/words/en/fields";
import { useDevice } from "../device/device-context";
import { type Draft, valueAt } from "../form/draft";
import { OneOf, Words, YesNo } from "../form/fields";
import { useForm } from "../form/form-context";
import { PadField } from "../form/pad-field";
import { EvidenceForm, type StepFormProps } from "../job/evidence-form";
import { useJobHere } from "../job/job-context";
import { ChargeBasis } from "./charge-basis";
import { ChargeCylinders } from "./charge-cylinders";
import { RoomCharge } from "./room-charge";
import { ToolChoice } from "./tool-choice";
import { ownTool, scaleFacts } from "./tool-facts";

export function ChargeForm(props: StepFormProps) {
  const { desk } = useDevice();
  const { job } = useJobHere();
  const blank = (): Draft => ({
    cylinders: [],
    scale: { calibrationDueOn: null, ...ownTool(job, desk.person, "scale", scaleFacts) },
    flammable: job.state.flammable ? { roomAreaM2: null, mountingHeight: null } : null,
    photos: [],
    note: null,
  });
  return (
    <EvidenceForm {...props} step="break_and_charge" blank={blank} verb={chargeWords.recordTheCharge}>
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
        label={chargeWords.theVacuumWasBroken}
        options={[
          { value: "refrigerant-vapour", label: chargeWords.refrigerantVapour },
          { value: "metered-liquid", label: chargeWords.liquidMeteredIn, detail: chargeWords.blendsLeaveTheCylinder },
          { value: "factory-charge", label: chargeWords.theFactoryCharge, detail: chargeWords.serviceValvesOpened },
          { value: "own-receiver", label: chargeWords.theSystemsOwnReceiver, detail: chargeWords.afterAPumpDown },
          { value: "nitrogen", label: chargeWords.nitrogen },
          { value: "air", label: fieldsWords.air },
        ]}
      />
      {(draft.brokenWith === "air" || draft.brokenWith === "nitrogen") && (
        <Callout kind="note" title={chargeWords.theEvacuationIsLost}>
          {chargeWords.theCircuitIsEvacuated}
        </Callout>
      )}
      <YesNo at="compressorOffUnderVacuum" label={chargeWords.theCompressorStayedDead} />
      <ChargeBasis />
      <Section title={chargeWords.onTheScale}>
        <ToolChoice at="scale" kind="scale" label={chargeWords.scale} fill={scaleFacts} />
        <PadField at="scale.resolutionKg" label={chargeWords.smallestStep} quantity="mass" usual={[0.001, 0.1]} />
        <ChargeCylinders />
        <PadField
          at="weighedInKg"
          label={chargeWords.netMassInto}
          hint={chargeWords.filledFromTheCylinders}
          quantity="signedMass"
        />
      </Section>
      {job.state.flammable && (
        <Section title={fieldsWords.forAFlammableRefrigerant}>
          <PadField at="flammable.chargeLimitKg" label={chargeWords.chargeLimit} quantity="mass" />
          <Words
            at="flammable.chargeLimitFrom"
            label={chargeWords.theLimitStands}
            hint={chargeWords.theMakersInstruction}
          />
          <PadField at="flammable.roomAreaM2" label={chargeWords.roomArea} quantity="areaM2" mayBeUnknown />
          <OneOf
            at="flammable.mountingHeight"
            label={chargeWords.theUnitIsMounted}
            columns={2}
            options={[
              { value: "floor", label: chargeWords.onTheFloor },
              { value: "window", label: chargeWords.atAWindow },
              { value: "wall", label: chargeWords.onTheWall },
              { value: "ceiling", label: chargeWords.onTheCeiling },
            ]}
          />
          <RoomCharge />
          <YesNo at="flammable.scaleGrounded" label={chargeWords.scaleAndCylinderGrounded} />
          <YesNo at="flammable.hosesPurged" label={chargeWords.hosesPurgedWithNitrogen} />
        </Section>
      )}
      {valueAt(draft, "basis.by") !== undefined && <Words at="note" label={fieldsWords.note} optional long />}
    </>
  );
}
