"use client";

import { Section } from "@/components/ui/section";
import { criteriaInForce, nitrogenSweepsAsked } from "@/lib/hvac/procedure";
import type { Draft } from "../form/draft";
import { Moment, OneOf, Words, YesNo } from "../form/fields";
import { useForm } from "../form/form-context";
import { PadField } from "../form/pad-field";
import { EvidenceForm, type StepFormProps } from "../job/evidence-form";
import { useJobHere } from "../job/job-context";
import { useUnits } from "../units/unit-choices";
import { PulldownLive } from "./pulldown-live";
import { emptyRecord } from "./readings";
import { Sweeps } from "./sweeps";
import { TimedReadings } from "./timed-readings";
import { ToolChoice } from "./tool-choice";
import { pumpFacts, vacuumGaugeFacts } from "./tool-facts";

export function EvacuateForm(props: StepFormProps) {
  const { job } = useJobHere();
  const blank = (): Draft => ({
    record: emptyRecord,
    source: "typed",
    hoses: null,
    gauge: { calibrationDueOn: null },
    pump: { litresPerSecond: null, ultimateMicron: null },
    blankOffMicron: null,
    sweeps: [],
    flammable: job.state.flammable ? {} : null,
    photos: [],
    note: null,
  });
  /** The clock of the readings says when pumping began and ended, where nobody said otherwise. */
  function finish(evidence: Draft): Draft {
    return { ...evidence, endedAt: evidence.endedAt ?? new Date().toISOString() };
  }
  return (
    <EvidenceForm
      {...props}
      step="evacuate"
      blank={blank}
      carry={(evidence) => ({ ...evidence, record: emptyRecord, source: "typed" })}
      finish={finish}
      verb="Record the evacuation"
    >
      <Fields correcting={props.correcting !== undefined} />
    </EvidenceForm>
  );
}

function Fields({ correcting }: { correcting: boolean }) {
  const { job } = useJobHere();
  const { draft, set } = useForm();
  const units = useUnits();
  const { state } = job;
  const criteria = criteriaInForce("evacuate", state.criteria, { circuit: state.circuit, wet: state.wet });
  const targetMicron = criteria?.values.targetMicron ?? 500;
  const sweepsAsked = nitrogenSweepsAsked({ preCycles: criteria?.values.preCycles ?? [] }, state);
  return (
    <>
      <div className="grid gap-1 border-l-3 border-edge bg-sunk px-4 py-3">
        <p>
          Pump down to <strong className="font-mono">{units.both("vacuum", targetMicron)}</strong>
          {criteria?.values.dwellMinutes ? `, then ${criteria.values.dwellMinutes} min more` : ""}.
          {sweepsAsked > 0 && ` Before that, ${sweepsAsked} nitrogen sweeps.`}
          {state.dryAgain && " The last hold found water: pumping alone does not answer that."}
        </p>
        <p className="text-small text-ink-soft">{criteria?.sources.join("; ")}</p>
      </div>
      <YesNo at="coresOut" label="Valve cores out" hint="A core left in is most of the resistance." />
      <OneOf
        at="gauge.location"
        label="The gauge sits"
        options={[
          { value: "system", label: "On the system, far from the pump" },
          { value: "pump", label: "At the pump", detail: "proves nothing about the circuit" },
        ]}
      />
      <OneOf
        at="oil"
        label="Pump oil"
        columns={3}
        options={[
          { value: "fresh", label: "Fresh" },
          { value: "clear", label: "Clear" },
          { value: "cloudy", label: "Milky", detail: "holds water: change it" },
          { value: "dark", label: "Dark", detail: "worn or acid: change it" },
          { value: "not-looked", label: "Not looked at" },
        ]}
      />
      {(sweepsAsked > 0 || ((draft.sweeps ?? []) as unknown[]).length > 0 || draft._sweeping === true) && (
        <Sweeps asked={sweepsAsked} />
      )}
      {!correcting && (
        <Section title="Pumping">
          <TimedReadings
            vacuum
            startWord="Pump running: first reading"
            nextDueS={(lastS) => (lastS < 0 ? 0 : lastS < 600 ? lastS + 120 : lastS + 300)}
            parts={[{ key: "micron", label: "Vacuum gauge", quantity: "vacuum", usual: [50, 760_000] }]}
          >
            <PulldownLive targetMicron={targetMicron} />
          </TimedReadings>
          <div className="grid gap-3 wide:grid-cols-2">
            <Moment at="startedAt" label="Pump started" nowWord="Now" />
            <Moment at="endedAt" label="Pump valve closed" nowWord="Now" />
          </div>
          {sweepsAsked === 0 && draft._sweeping !== true && (
            <button
              type="button"
              className="min-h-(--control) justify-self-start font-semibold text-action underline-offset-4 hover:underline"
              onClick={() => set("_sweeping", true)}
            >
              A nitrogen sweep was made
            </button>
          )}
        </Section>
      )}
      <Section title="Rig">
        <ToolChoice at="gauge" kind="vacuum-gauge" label="Vacuum gauge" fill={vacuumGaugeFacts} />
        <ToolChoice at="pump" kind="pump" label="Pump" fill={pumpFacts} />
        <div className="grid gap-3 wide:grid-cols-2">
          <PadField at="gauge.resolutionMicron" label="Smallest step of the gauge" quantity="vacuum" usual={[1, 100]} />
          <PadField at="gauge.accuracyPercent" label="Accuracy of the gauge" quantity="percent" usual={[1, 20]} />
          <PadField
            at="pump.litresPerSecond"
            label="Pump speed, from its plate"
            quantity="pumpSpeed"
            usual={[0.5, 6]}
            mayBeUnknown
          />
          <PadField
            at="blankOffMicron"
            label="Blank-off: pump and gauge alone"
            quantity="vacuum"
            usual={[5, 100]}
            mayBeUnknown
          />
        </div>
        <Hoses />
      </Section>
      {state.flammable && (
        <YesNo at="flammable.pumpSuitedOrExhaustVented" label="Pump suited to flammables, or its exhaust led outside" />
      )}
      <Words at="note" label="Note" optional long />
    </>
  );
}

function Hoses() {
  const { draft, set } = useForm();
  if (draft.hoses === null)
    return (
      <button
        type="button"
        className="min-h-(--control) justify-self-start font-semibold text-action underline-offset-4 hover:underline"
        onClick={() => set("hoses", { innerDiameterMm: 9.5, lengthM: 1.5, count: 1 })}
      >
        Enter the hoses, for a better estimate
      </button>
    );
  return (
    <div className="grid gap-3 wide:grid-cols-3">
      <PadField at="hoses.innerDiameterMm" label="Hose bore" quantity="boreMm" usual={[4, 25]} />
      <PadField at="hoses.lengthM" label="Hose length" quantity="lineLength" usual={[0.5, 5]} />
      <PadField at="hoses.count" label="How many" quantity="count" usual={[1, 4]} />
    </div>
  );
}
