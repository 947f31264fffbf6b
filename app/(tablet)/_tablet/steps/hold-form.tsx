"use client";

import { Callout } from "@/components/ui/notices";
import { Section } from "@/components/ui/section";
import { criteriaInForce } from "@/lib/hvac/procedure";
import { fieldsWords } from "@/lib/words/en/fields";
import { holdWords } from "@/lib/words/en/hold";
import { useDevice } from "../device/device-context";
import type { Draft } from "../form/draft";
import { OneOf, Words, YesNo } from "../form/fields";
import { useForm } from "../form/form-context";
import { PadField } from "../form/pad-field";
import { EvidenceForm, type StepFormProps } from "../job/evidence-form";
import { useJobHere } from "../job/job-context";
import { ask } from "../judging/ask";
import { useUnits } from "../units/unit-choices";
import { recordOfDraft } from "./hold-judging";
import { HoldLive } from "./hold-live";
import { emptyRecord, hasBegun, sentenceWhile } from "./readings";
import { StartReadings, TimedReadings, usualInterval } from "./timed-readings";
import { ToolChoice } from "./tool-choice";
import { ownTool, vacuumGaugeFacts } from "./tool-facts";
import { VacuumGaugeFields } from "./vacuum-gauge-fields";

export function HoldForm(props: StepFormProps) {
  const { desk } = useDevice();
  const { job } = useJobHere();
  const blank = (): Draft => ({
    ...(job.state.circuit?.internalVolume && { internalVolumeL: job.state.circuit.internalVolume.litres }),
    gauge: { calibrationDueOn: null, ...gaugeOfEvacuation() },
    source: "typed",
    record: emptyRecord,
    deviceVerdict: null,
    photos: [],
    note: null,
  });
  /** The same gauge usually stays on: it is not asked for twice. */
  function gaugeOfEvacuation() {
    const entry = job.entries.findLast((each) => each.kind === "step-recorded" && each.body.step === "evacuate");
    return entry?.kind === "step-recorded" && entry.body.step === "evacuate"
      ? entry.body.evidence.gauge
      : ownTool(job, desk.person, "vacuum-gauge", vacuumGaugeFacts);
  }
  async function finish(evidence: Draft): Promise<Draft> {
    const record = recordOfDraft(evidence, job);
    if (!record) return evidence;
    const { verdict, rulesVersion } = (await ask("hold", record)).judgement;
    return { ...evidence, deviceVerdict: { verdict, rulesVersion } };
  }
  return (
    <EvidenceForm
      {...props}
      step="hold"
      blank={blank}
      carry={(evidence) => ({ ...evidence, record: emptyRecord, source: "typed", deviceVerdict: null })}
      finish={finish}
      verb={holdWords.recordTheHold}
      preview={false}
      isWatching={hasBegun}
      sentence={(draft) => sentenceWhile(draft, holdWords.doNow)}
      start={(draft) => !hasBegun(draft) && <Start />}
    >
      <Fields correcting={props.correcting !== undefined} />
    </EvidenceForm>
  );
}

/** Its word says that the valve is closed, so pressing it answers that question too. */
function Start() {
  const { draft, set } = useForm();
  return (
    <StartReadings
      vacuum
      word={holdWords.valveClosedStart}
      onStart={() => draft.pumpIsolated === undefined && set("pumpIsolated", true)}
    />
  );
}

function Fields({ correcting }: { correcting: boolean }) {
  const { job } = useJobHere();
  const { draft } = useForm();
  const { state } = job;
  const criteria = criteriaInForce("hold", state.criteria, { circuit: state.circuit, wet: state.wet });
  const goalS = (criteria?.values.holdMinutes ?? 10) * 60;
  const watching = !correcting && hasBegun(draft);
  const readings = (
    <TimedReadings
      vacuum
      goalS={goalS}
      nextDueS={usualInterval(goalS)}
      parts={[{ key: "micron", label: fieldsWords.vacuumGauge, quantity: "vacuum", usual: [20, 5000] }]}
    >
      <HoldLive />
    </TimedReadings>
  );
  return (
    <>
      {watching && readings}
      <HoldTerms />
      <YesNo at="pumpIsolated" label={holdWords.valveClosed} hint={holdWords.thenVentTheHose} />
      <OneOf
        at="gauge.location"
        label={holdWords.theGaugeSits}
        options={[
          { value: "system", label: holdWords.systemSide },
          { value: "pump", label: holdWords.pumpSide, detail: holdWords.pumpSideDetail },
        ]}
      />
      <PadField at="wallTemperatureC" label={holdWords.coldestWall} quantity="temperature" usual={[-20, 50]} />
      {!correcting && !watching && readings}
      <Callout kind="note" title={holdWords.leakingValve}>
        {holdWords.leakingValveWhy}
      </Callout>
      <Section title={holdWords.circuitAndGauge}>
        <ToolChoice at="gauge" kind="vacuum-gauge" label={fieldsWords.vacuumGauge} fill={vacuumGaugeFacts} />
        <div className="grid items-end gap-3 pair:grid-cols-2">
          <PadField
            at="internalVolumeL"
            label={fieldsWords.internalVolume}
            hint={volumeHint(state.circuit?.internalVolume?.from)}
            quantity="litres"
            usual={[0.5, 200]}
          />
          <VacuumGaugeFields />
        </div>
      </Section>
      <Words at="note" label={fieldsWords.note} optional long />
    </>
  );
}

/** What the hold is held to, and by whom. */
function HoldTerms() {
  const { job } = useJobHere();
  const units = useUnits();
  const { state } = job;
  const criteria = criteriaInForce("hold", state.criteria, { circuit: state.circuit, wet: state.wet });
  if (!criteria) return null;
  return (
    <p className="border-l-3 border-edge bg-sunk px-4 py-3">
      {holdWords.startAtOrBelow(
        <strong key="target" className="font-mono">
          {units.words("vacuum", criteria.values.targetMicron)}
        </strong>,
        criteria.values.holdMinutes,
        <strong key="final" className="font-mono">
          {units.words("vacuum", criteria.values.maxFinalMicron)}
        </strong>,
      )}{" "}
      <span className="text-small text-ink-soft">
        {holdWords.steadyRiseAtMost(units.pace(criteria.values.maxSteadyRiseMicronPerMin), criteria.sources.join("; "))}
      </span>
    </p>
  );
}

function volumeHint(from: "nameplate" | "measured" | "estimated" | undefined): string {
  return from === undefined ? holdWords.notInTheRegister : holdWords.fromTheRegister(from);
}
