"use client";

import { Callout } from "@/components/ui/notices";
import { Section } from "@/components/ui/section";
import { criteriaInForce } from "@/lib/hvac/procedure";
import { fieldsWords } from "@/lib/words/en/fields";
import { pressureTestWords } from "@/lib/words/en/pressure-test";
import { useDevice } from "../device/device-context";
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
import { emptyRecord, hasBegun, pressureReadings, sentenceWhile } from "./readings";
import { StartReadings, TimedReadings, usualInterval } from "./timed-readings";
import { ToolChoice } from "./tool-choice";
import { ownTool, pressureGaugeFacts } from "./tool-facts";

export function PressureTestForm(props: StepFormProps) {
  const { desk } = useDevice();
  const { job } = useJobHere();
  const { circuit } = job.state;
  const blank = (): Draft => ({
    gauge: { calibrationDueOn: null, ...ownTool(job, desk.person, "pressure-gauge", pressureGaugeFacts) },
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
      verb={pressureTestWords.recordThePressureTest}
      isWatching={hasBegun}
      sentence={(draft) => sentenceWhile(draft, pressureTestWords.doNow)}
      start={(draft) =>
        !hasBegun(draft) && <StartReadings vacuum={false} word={pressureTestWords.cylinderClosedFirstReading} />
      }
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
  const watching = !correcting && hasBegun(draft);
  const readings = (
    <TimedReadings
      vacuum={false}
      goalS={goalS}
      nextDueS={usualInterval(goalS)}
      parts={[
        {
          key: "kPaGauge",
          label: pressureTestWords.gauge,
          quantity: "gaugePressure",
          ...(limitKPa !== null && { usual: [0, limitKPa] as const }),
        },
        {
          key: "temperatureC",
          label: pressureTestWords.airBesideTheGauge,
          quantity: "temperature",
          usual: [-20, 50],
        },
      ]}
    >
      <PressureTestLive readings={pressureReadings(draft.record, job.traces)} evidence={evidenceOf(draft)} />
    </TimedReadings>
  );
  return (
    <>
      {watching && readings}
      <div className="grid gap-1 border-l-3 border-edge bg-sunk px-4 py-3">
        {criteria ? (
          <>
            <p>
              {pressureTestWords.testAt(
                <strong key="pressure" className="font-mono">
                  {units.both("gaugePressure", criteria.values.testPressureKPaGauge)}
                </strong>,
                criteria.values.holdMinutes,
              )}
            </p>
            <p className="text-small text-ink-soft">
              {pressureTestWords.lossAtMost(
                units.pressureDifference(criteria.values.maxLeakKPaPerHour),
                criteria.sources.join("; "),
              )}
            </p>
          </>
        ) : (
          <p>{pressureTestWords.noTestPressure}</p>
        )}
        {limitKPa !== null && <p>{pressureTestWords.neverAbove(units.both("gaugePressure", limitKPa))}</p>}
      </div>
      <OneOf
        at="gas"
        label={pressureTestWords.gas}
        columns={3}
        options={[
          { value: "nitrogen", label: fieldsWords.dryNitrogen },
          { value: "nitrogen-with-trace", label: pressureTestWords.nitrogenWithTraceGas },
          { value: "air", label: fieldsWords.air },
          { value: "oxygen", label: pressureTestWords.oxygen },
          { value: "other", label: pressureTestWords.anotherGas },
        ]}
      />
      {(draft.gas === "air" || draft.gas === "oxygen" || draft.gas === "other") && (
        <Callout title={pressureTestWords.stop}>{pressureTestWords.onlyDryNitrogenGoes}</Callout>
      )}
      <YesNo at="lowSideConnected" label={pressureTestWords.theLowSide} />
      <YesNo at="raisedInSteps" label={pressureTestWords.raisedInStepsListened} />
      <YesNo at="cylinderDisconnected" label={pressureTestWords.nitrogenCylinderClosed} />
      {!correcting && !watching && (
        <Section title={pressureTestWords.hold} lead={pressureTestWords.theFirstReading}>
          {readings}
        </Section>
      )}
      <Section title={pressureTestWords.gaugeAndPlace}>
        <ToolChoice
          at="gauge"
          kind="pressure-gauge"
          label={pressureTestWords.pressureGauge}
          fill={pressureGaugeFacts}
        />
        <div className="grid items-end gap-3 pair:grid-cols-2">
          <PadField
            at="gauge.resolutionKPa"
            label={fieldsWords.smallestStepOfTheGauge}
            quantity="pressureStep"
            usual={[0.1, 20]}
          />
          <PadField
            at="gauge.accuracyPercent"
            label={fieldsWords.accuracyOfTheGauge}
            quantity="percent"
            usual={[0.1, 3]}
          />
          <PadField
            at="temperatureAccuracyC"
            label={pressureTestWords.accuracyOfTheThermometer}
            quantity="temperatureStep"
            usual={[0.2, 3]}
          />
          <PadField at="atmosphericKPa" label={fieldsWords.barometerHere} quantity="barometer" usual={[75, 105]} />
          <PadField at="internalVolumeL" label={fieldsWords.internalVolume} quantity="litres" usual={[0.5, 200]} />
        </div>
      </Section>
      <Words at="note" label={fieldsWords.note} optional long />
    </>
  );
}
