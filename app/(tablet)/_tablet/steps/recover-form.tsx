"use client";

import { Section } from "@/components/ui/section";
import { fieldsWords } from "@/lib/words/en/fields";
import { recoverWords } from "@/lib/words/en/recover";
import { useDevice } from "../device/device-context";
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
import { ownTool, recoveryMachineFacts } from "./tool-facts";

export function RecoverForm(props: StepFormProps) {
  const { desk } = useDevice();
  const { job } = useJobHere();
  const { flammable } = job.state;
  const blank = () => ({
    machine: { toolId: null, ...ownTool(job, desk.person, "recovery-machine", recoveryMachineFacts) },
    ...lastBarometer(job),
    cylinders: [],
    compressorWorking: null,
    alternative: null,
    flammable: flammable ? {} : null,
    photos: [],
    note: null,
  });
  return (
    <EvidenceForm {...props} step="recover" blank={blank} verb={recoverWords.recordTheRecovery}>
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
        label={recoverWords.howItIsRecovered}
        columns={3}
        options={[
          { value: "recovery-machine", label: recoverWords.recoveryMachine },
          { value: "pump-down", label: recoverWords.pumpDown, detail: recoverWords.intoCondenserOrReceiver },
          { value: "passive", label: recoverWords.systemDependent, detail: recoverWords.upTo15Lb },
        ]}
        onChoose={(method) => {
          if (method !== "recovery-machine") set("machine", null);
          else if (draft.machine === null) set("machine", { toolId: null });
        }}
      />
      {byMachine && (
        <Section title={recoverWords.machine}>
          <ToolChoice
            at="machine"
            kind="recovery-machine"
            label={recoverWords.recoveryMachine}
            fill={recoveryMachineFacts}
          />
          <OneOf
            at="machine.dateClass"
            label={recoverWords.theMachineWasMade}
            options={[
              { value: "on-or-after-1993-11-15", label: recoverWords.onOrAfter15Nov1993 },
              { value: "before-1993-11-15", label: recoverWords.before15Nov1993 },
            ]}
          />
          {valueAt(draft, "machine.ratedForFlammables") === undefined && (
            <YesNo at="machine.ratedForFlammables" label={recoverWords.ratedForFlammables} />
          )}
        </Section>
      )}
      <RecoveryLevel />
      <Section title={recoverWords.gauge}>
        <div className="grid items-end gap-3 pair:grid-cols-2">
          <PadField
            at="atmosphericKPa"
            label={fieldsWords.barometerHere}
            hint={recoverWords.notReducedToSea}
            quantity="barometer"
            usual={[75, 105]}
          />
          <PadField
            at="finalGaugeKPa"
            label={recoverWords.lowestPressureReached}
            hint={recoverWords.vacuumIsBelowZero}
            quantity="gaugePressure"
            usual={[-101, 50]}
          />
          <PadField at="waitedMinutes" label={recoverWords.waitedWithTheMachine} quantity="minutes" usual={[1, 30]} />
          <PadField
            at="afterWaitGaugeKPa"
            label={recoverWords.pressureAfterTheWait}
            hint={recoverWords.liquidOrOilStill}
            quantity="gaugePressure"
            usual={[-101, 50]}
          />
        </div>
      </Section>
      {byMachine && <RecoveryCylinders />}
      {small && <YesNo at="compressorWorking" label={recoverWords.theCompressorWorks} />}
      <RecoveryAlternative />
      {job.state.flammable && (
        <Section title={fieldsWords.forAFlammableRefrigerant}>
          <YesNo at="flammable.cylinderGrounded" label={recoverWords.cylinderGrounded} />
          <YesNo at="flammable.machineRatedForClass" label={recoverWords.machineRated} />
        </Section>
      )}
      <Words at="note" label={fieldsWords.note} optional long />
    </>
  );
}
