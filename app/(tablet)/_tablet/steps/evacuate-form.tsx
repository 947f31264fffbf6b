"use client";

import { Button } from "@/components/ui/button";
import { Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { criteriaInForce, nitrogenSweepsAsked } from "@/lib/hvac/procedure";
import { evacuateWords } from "@/lib/words/en/evacuate";
import { fieldsWords } from "@/lib/words/en/fields";
import { useDevice } from "../device/device-context";
import type { Draft } from "../form/draft";
import { Moment, OneOf, Words, YesNo } from "../form/fields";
import { useForm } from "../form/form-context";
import { PadField } from "../form/pad-field";
import { EvidenceForm, type StepFormProps } from "../job/evidence-form";
import { useJobHere } from "../job/job-context";
import { clockWords } from "../today/time-words";
import { useUnits } from "../units/unit-choices";
import { PulldownLive } from "./pulldown-live";
import { emptyRecord, hasBegun, sentenceWhile } from "./readings";
import { Sweeps } from "./sweeps";
import { StartReadings, TimedReadings } from "./timed-readings";
import { ToolChoice } from "./tool-choice";
import { ownTool, pumpFacts, vacuumGaugeFacts } from "./tool-facts";
import { VacuumGaugeFields } from "./vacuum-gauge-fields";

export function EvacuateForm(props: StepFormProps) {
  const { desk } = useDevice();
  const { job } = useJobHere();
  const blank = (): Draft => ({
    record: emptyRecord,
    source: "typed",
    hoses: null,
    gauge: { calibrationDueOn: null, ...ownTool(job, desk.person, "vacuum-gauge", vacuumGaugeFacts) },
    pump: { litresPerSecond: null, ultimateMicron: null, ...ownTool(job, desk.person, "pump", pumpFacts) },
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
      carry={({ oilChangedAt: _counted, ...evidence }) => ({ ...evidence, record: emptyRecord, source: "typed" })}
      finish={finish}
      verb={evacuateWords.recordTheEvacuation}
      isWatching={hasBegun}
      sentence={(draft) => sentenceWhile(draft, evacuateWords.doNow)}
      start={(draft) => !hasBegun(draft) && <Start />}
    >
      <Fields correcting={props.correcting !== undefined} />
    </EvidenceForm>
  );
}

/** Pumping begins with it, where no other moment was given. */
function Start() {
  const { draft, set } = useForm();
  return (
    <StartReadings
      vacuum
      word={evacuateWords.pumpRunningFirstReading}
      onStart={(at) => !draft.startedAt && set("startedAt", at.toISOString())}
    />
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
  const watching = !correcting && hasBegun(draft);
  const readings = (
    <TimedReadings
      vacuum
      nextDueS={(lastS) => (lastS < 0 ? 0 : lastS < 600 ? lastS + 120 : lastS + 300)}
      parts={[{ key: "micron", label: fieldsWords.vacuumGauge, quantity: "vacuum", usual: [50, 760_000] }]}
    >
      <PulldownLive targetMicron={targetMicron} />
    </TimedReadings>
  );
  return (
    <>
      {watching && readings}
      <div className="grid gap-1 border-l-3 border-edge bg-sunk px-4 py-3">
        <p>
          {evacuateWords.pumpDownTo(
            <strong key="target" className="font-mono">
              {units.both("vacuum", targetMicron)}
            </strong>,
            criteria?.values.dwellMinutes,
          )}
          {sweepsAsked > 0 && ` ${evacuateWords.beforeThatSweeps(sweepsAsked)}`}
          {state.dryAgain && ` ${evacuateWords.theLastHoldFoundWater}`}
        </p>
        <p className="text-small text-ink-soft">{criteria?.sources.join("; ")}</p>
      </div>
      <YesNo at="coresOut" label={evacuateWords.valveCoresOut} hint={evacuateWords.coreLeftIn} />
      <OneOf
        at="gauge.location"
        label={evacuateWords.theGaugeSits}
        options={[
          { value: "system", label: evacuateWords.onTheSystem },
          { value: "pump", label: evacuateWords.atThePump, detail: evacuateWords.provesNothingAbout },
        ]}
      />
      <OneOf
        at="oil"
        label={evacuateWords.pumpOil}
        hint={evacuateWords.pumpOilHint}
        columns={3}
        options={[
          { value: "fresh", label: evacuateWords.fresh },
          { value: "clear", label: evacuateWords.clear },
          { value: "cloudy", label: evacuateWords.milky, detail: evacuateWords.holdsWaterChange },
          { value: "dark", label: evacuateWords.dark, detail: evacuateWords.wornOrAcidChange },
          { value: "not-looked", label: evacuateWords.notLookedAt },
        ]}
      />
      {!correcting && <OilChange />}
      {(sweepsAsked > 0 || ((draft.sweeps ?? []) as unknown[]).length > 0 || draft._sweeping === true) && (
        <Sweeps asked={sweepsAsked} />
      )}
      {!correcting && (
        <Section title={evacuateWords.pumping}>
          {!watching && readings}
          <div className="grid items-end gap-3 pair:grid-cols-2">
            <Moment at="startedAt" label={evacuateWords.pumpStarted} nowWord={evacuateWords.now} />
            <Moment at="endedAt" label={evacuateWords.pumpValveClosed} nowWord={evacuateWords.now} />
          </div>
          {sweepsAsked === 0 && draft._sweeping !== true && (
            <button
              type="button"
              className="min-h-(--control) justify-self-start font-semibold text-action underline-offset-4 hover:underline"
              onClick={() => set("_sweeping", true)}
            >
              {evacuateWords.aNitrogenSweep}
            </button>
          )}
        </Section>
      )}
      <Section title={evacuateWords.rig}>
        <ToolChoice at="gauge" kind="vacuum-gauge" label={fieldsWords.vacuumGauge} fill={vacuumGaugeFacts} />
        <ToolChoice at="pump" kind="pump" label={evacuateWords.pump} fill={pumpFacts} />
        <div className="grid items-end gap-3 pair:grid-cols-2">
          <VacuumGaugeFields />
          <PadField
            at="pump.litresPerSecond"
            label={evacuateWords.pumpSpeed}
            quantity="pumpSpeed"
            usual={[0.5, 6]}
            mayBeUnknown
          />
          <PadField
            at="blankOffMicron"
            label={evacuateWords.blankOffPump}
            quantity="vacuum"
            usual={[5, 100]}
            mayBeUnknown
          />
        </div>
        <Hoses />
      </Section>
      {state.flammable && (
        <YesNo at="flammable.pumpSuitedOrExhaustVented" label={evacuateWords.pumpSuitedToFlammables} />
      )}
      <Words at="note" label={fieldsWords.note} optional long />
    </>
  );
}

/** New oil on this job: the pump's hours begin anew with it. */
function OilChange() {
  const { job } = useJobHere();
  const { draft, set } = useForm();
  const { timeZone } = job.heading.job.site;
  const at = typeof draft.oilChangedAt === "string" ? draft.oilChangedAt : null;
  if (at === null)
    return (
      <Button
        className="justify-self-start"
        onClick={() => {
          set("oilChangedAt", new Date().toISOString());
          set("oil", "fresh");
        }}
      >
        {evacuateWords.oilChangedNow}
      </Button>
    );
  return (
    <div className="flex flex-wrap items-center gap-x-4">
      <StateMark state="proven" word={evacuateWords.oilChangedAt(clockWords(at, timeZone))} />
      <Button kind="plain" onClick={() => set("oilChangedAt", undefined)}>
        {evacuateWords.itWasNot}
        <span className="sr-only">: {evacuateWords.oilChangedNow}</span>
      </Button>
    </div>
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
        {evacuateWords.enterTheHoses}
      </button>
    );
  return (
    <div className="grid items-end gap-3 pair:grid-cols-3">
      <PadField at="hoses.innerDiameterMm" label={evacuateWords.hoseBore} quantity="boreMm" usual={[4, 25]} />
      <PadField at="hoses.lengthM" label={evacuateWords.hoseLength} quantity="lineLength" usual={[0.5, 5]} />
      <PadField at="hoses.count" label={evacuateWords.howMany} quantity="count" usual={[1, 4]} />
    </div>
  );
}
