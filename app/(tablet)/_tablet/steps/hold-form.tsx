"use client";

import { Callout } from "@/components/ui/notices";
import { Section } from "@/components/ui/section";
import { criteriaInForce } from "@/lib/hvac/procedure";
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
import { emptyRecord } from "./readings";
import { TimedReadings, usualInterval } from "./timed-readings";
import { ToolChoice } from "./tool-choice";
import { vacuumGaugeFacts } from "./tool-facts";

export function HoldForm(props: StepFormProps) {
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
    return entry?.kind === "step-recorded" && entry.body.step === "evacuate" ? entry.body.evidence.gauge : {};
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
      verb="Record the hold"
      preview={false}
      isWatching={isWatching}
    >
      <Fields correcting={props.correcting !== undefined} />
    </EvidenceForm>
  );
}

/** The hold has begun: from now on the gauge comes first. */
function isWatching(draft: Draft): boolean {
  return typeof draft._startMs === "number" || draft.source === "file";
}

function Fields({ correcting }: { correcting: boolean }) {
  const { job } = useJobHere();
  const { draft } = useForm();
  const { state } = job;
  const criteria = criteriaInForce("hold", state.criteria, { circuit: state.circuit, wet: state.wet });
  const goalS = (criteria?.values.holdMinutes ?? 10) * 60;
  const watching = !correcting && isWatching(draft);
  const readings = (
    <TimedReadings
      vacuum
      startWord="Valve closed: start the hold"
      goalS={goalS}
      nextDueS={usualInterval(goalS)}
      parts={[{ key: "micron", label: "Vacuum gauge", quantity: "vacuum", usual: [20, 5000] }]}
    >
      <HoldLive />
    </TimedReadings>
  );
  return (
    <>
      {watching && readings}
      <HoldTerms />
      <YesNo at="pumpIsolated" label="The valve to the pump is closed" hint="Then vent the hose, or stop the pump." />
      <OneOf
        at="gauge.location"
        label="The gauge sits"
        options={[
          { value: "system", label: "On the system side of the valve" },
          { value: "pump", label: "On the pump side", detail: "sees the hose, not the circuit" },
        ]}
      />
      <PadField at="wallTemperatureC" label="Coldest wall of the circuit" quantity="temperature" usual={[-20, 50]} />
      {!correcting && !watching && readings}
      <Callout kind="note" title="A leaking isolation valve can hide a leak">
        Towards a running pump it draws the leak away from every gauge. Stop the pump or vent the hose for the hold, and
        prove hoses, core tools and valve alone when a hold fails.
      </Callout>
      <Section title="Circuit and gauge">
        <ToolChoice at="gauge" kind="vacuum-gauge" label="Vacuum gauge" fill={vacuumGaugeFacts} />
        <div className="grid gap-3 wide:grid-cols-2">
          <PadField
            at="internalVolumeL"
            label="Internal volume"
            hint={volumeHint(state.circuit?.internalVolume?.from)}
            quantity="litres"
            usual={[0.5, 200]}
          />
          <PadField at="gauge.resolutionMicron" label="Smallest step of the gauge" quantity="vacuum" usual={[1, 100]} />
          <PadField at="gauge.accuracyPercent" label="Accuracy of the gauge" quantity="percent" usual={[1, 20]} />
        </div>
      </Section>
      <Words at="note" label="Note" optional long />
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
      Start at or below <strong className="font-mono">{units.words("vacuum", criteria.values.targetMicron)}</strong>,
      hold {criteria.values.holdMinutes} min, stay below{" "}
      <strong className="font-mono">{units.words("vacuum", criteria.values.maxFinalMicron)}</strong>.{" "}
      <span className="text-small text-ink-soft">
        A steady rise of at most {criteria.values.maxSteadyRiseMicronPerMin} micron a minute ·{" "}
        {criteria.sources.join("; ")}
      </span>
    </p>
  );
}

function volumeHint(from: "nameplate" | "measured" | "estimated" | undefined): string {
  return from === undefined
    ? "Not in the register: estimate it from the plate and the lines."
    : `From the register: ${from}.`;
}
