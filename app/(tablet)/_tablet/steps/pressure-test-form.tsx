"use client";

import { Callout } from "@/components/ui/notices";
import { Section } from "@/components/ui/section";
import { criteriaInForce } from "@/lib/hvac/procedure";
import { type Draft, evidenceOf } from "../form/draft";
import { OneOf, Words, YesNo } from "../form/fields";
import { useForm } from "../form/form-context";
import { PadField } from "../form/pad-field";
import { EvidenceForm, type StepFormProps } from "../job/evidence-form";
import { useJobHere } from "../job/job-context";
import { ask } from "../judging/ask";
import { useUnits } from "../units/unit-choices";
import { lastBarometer } from "./last-barometer";
import { PressureTestLive, pressureTestQuestion, weakestPart } from "./pressure-test-live";
import { emptyRecord, pressureReadings } from "./readings";
import { TimedReadings, usualInterval } from "./timed-readings";
import { ToolChoice } from "./tool-choice";
import { pressureGaugeFacts } from "./tool-facts";

export function PressureTestForm(props: StepFormProps) {
  const { job } = useJobHere();
  const { circuit } = job.state;
  const blank = (): Draft => ({
    gauge: { calibrationDueOn: null },
    ...lastBarometer(job),
    temperatureAccuracyC: 1,
    ...(circuit?.internalVolume && { internalVolumeL: circuit.internalVolume.litres }),
    source: "typed",
    record: emptyRecord,
    deviceVerdict: null,
    photos: [],
    note: null,
  });
  const carry = (evidence: Draft) => ({ ...evidence, record: emptyRecord, source: "typed", deviceVerdict: null });
  async function finish(evidence: Draft): Promise<Draft> {
    const question = pressureTestQuestion(evidence, job);
    if (!question) return evidence;
    const { verdict, rulesVersion } = await ask("pressure-test", question);
    return { ...evidence, deviceVerdict: { verdict, rulesVersion } };
  }
  return (
    <EvidenceForm
      {...props}
      step="pressure_test"
      blank={blank}
      carry={carry}
      finish={finish}
      verb="Record the pressure test"
    >
      <Fields correcting={props.correcting !== undefined} />
    </EvidenceForm>
  );
}

function Fields({ correcting }: { correcting: boolean }) {
  const { job } = useJobHere();
  const { draft } = useForm();
  const units = useUnits();
  const { state } = job;
  const criteria = criteriaInForce("pressure_test", state.criteria, { circuit: state.circuit, wet: state.wet });
  const limitKPa = weakestPart(draft, state.circuit);
  const goalS = (criteria?.values.holdMinutes ?? 30) * 60;
  return (
    <>
      <div className="grid gap-1 border-l-3 border-edge bg-sunk px-4 py-3">
        {criteria ? (
          <>
            <p>
              Test at{" "}
              <strong className="font-mono">{units.both("gaugePressure", criteria.values.testPressureKPaGauge)}</strong>
              , hold {criteria.values.holdMinutes} min.
            </p>
            <p className="text-small text-ink-soft">
              Loss at most {criteria.values.maxLeakKPaPerHour} kPa an hour at constant temperature ·{" "}
              {criteria.sources.join("; ")}
            </p>
          </>
        ) : (
          <p>
            The test pressure cannot be said: the design pressure of the low side is not known. Read it off the
            nameplate.
          </p>
        )}
        {limitKPa !== null && <p>Never above {units.both("gaugePressure", limitKPa)}: the weakest part connected.</p>}
      </div>
      <OneOf
        at="gas"
        label="Gas"
        columns={3}
        options={[
          { value: "nitrogen", label: "Dry nitrogen" },
          { value: "nitrogen-with-trace", label: "Nitrogen with trace gas" },
          { value: "air", label: "Air" },
          { value: "oxygen", label: "Oxygen" },
          { value: "other", label: "Another gas" },
        ]}
      />
      {(draft.gas === "air" || draft.gas === "oxygen" || draft.gas === "other") && (
        <Callout title="Stop">
          Only dry nitrogen goes into the circuit. Oxygen with oil explodes. Let the pressure off safely; recording it
          fails the test, and that stays on the record.
        </Callout>
      )}
      <YesNo at="lowSideConnected" label="The low side is part of the test" />
      <YesNo at="raisedInSteps" label="Raised in steps, listened at each" />
      <YesNo at="cylinderDisconnected" label="Nitrogen cylinder closed and disconnected" />
      {!correcting && (
        <Section
          title="Hold"
          lead="The first reading is the test pressure, as soon as the cylinder is closed. The air temperature goes with each."
        >
          <TimedReadings
            vacuum={false}
            startWord="Cylinder closed: first reading"
            goalS={goalS}
            nextDueS={usualInterval(goalS)}
            parts={[
              {
                key: "kPaGauge",
                label: "Gauge",
                quantity: "gaugePressure",
                ...(limitKPa !== null && { usual: [0, limitKPa] as const }),
              },
              { key: "temperatureC", label: "Air beside the gauge", quantity: "temperature", usual: [-20, 50] },
            ]}
          >
            <PressureTestLive readings={pressureReadings(draft.record, job.traces)} evidence={evidenceOf(draft)} />
          </TimedReadings>
        </Section>
      )}
      <Section title="Gauge and place">
        <ToolChoice at="gauge" kind="pressure-gauge" label="Pressure gauge" fill={pressureGaugeFacts} />
        <div className="grid gap-3 wide:grid-cols-2">
          <PadField
            at="gauge.resolutionKPa"
            label="Smallest step of the gauge"
            quantity="kiloPascalStep"
            usual={[0.1, 20]}
          />
          <PadField at="gauge.accuracyPercent" label="Accuracy of the gauge" quantity="percent" usual={[0.1, 3]} />
          <PadField
            at="temperatureAccuracyC"
            label="Accuracy of the thermometer"
            quantity="temperatureStep"
            usual={[0.2, 3]}
          />
          <PadField at="atmosphericKPa" label="Barometer here" quantity="barometer" usual={[75, 105]} />
          <PadField at="internalVolumeL" label="Internal volume" quantity="litres" usual={[0.5, 200]} />
        </div>
      </Section>
      <Words at="note" label="Note" optional long />
    </>
  );
}
