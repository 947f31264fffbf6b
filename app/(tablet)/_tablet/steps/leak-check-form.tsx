"use client";

import { useId } from "react";
import { Button } from "@/components/ui/button";
import { Section } from "@/components/ui/section";
import { SelectField } from "@/components/ui/select-field";
import { StateMark } from "@/components/ui/state-mark";
import { TextInput } from "@/components/ui/text-input";
import type { EvidenceOf } from "@/lib/hvac/procedure";
import { criteriaInForce } from "@/lib/hvac/procedure";
import { fieldsWords } from "@/lib/words/en/fields";
import { leakCheckWords } from "@/lib/words/en/leak-check";
import { Words } from "../form/fields";
import { useField, useForm } from "../form/form-context";
import { PadField, PadValue } from "../form/pad-field";
import { EvidenceForm, type StepFormProps } from "../job/evidence-form";
import { useJobHere } from "../job/job-context";
import { useUnits } from "../units/unit-choices";

type JointCheck = Partial<EvidenceOf<"leak_check">["joints"][number]> & { joint: string };

export function LeakCheckForm(props: StepFormProps) {
  const { job } = useJobHere();
  const touched = [
    ...new Set(
      job.entries.flatMap((entry) =>
        entry.kind === "step-recorded" && entry.body.step === "open_repair" ? entry.body.evidence.joints : [],
      ),
    ),
  ];
  const lastKPa = job.entries.findLast(
    (entry) => entry.kind === "step-recorded" && entry.body.step === "pressure_test",
  );
  const blank = () => ({
    ...(pressureOf(lastKPa) !== null && { checkedAtGaugeKPa: pressureOf(lastKPa) }),
    joints: touched.map((joint) => ({ joint })),
    photos: [],
    note: null,
    _how: { method: "bubbles", instrument: "", sensitivityGramPerYear: null },
  });
  return (
    <EvidenceForm
      {...props}
      step="leak_check"
      blank={blank}
      verb={leakCheckWords.recordTheLeakCheck}
      photoSubjects={(draft) => ((draft.joints ?? []) as JointCheck[]).map(({ joint }) => joint)}
    >
      <Fields touched={touched} />
    </EvidenceForm>
  );
}

function pressureOf(entry: StepEntry | undefined): number | null {
  if (entry?.kind !== "step-recorded" || entry.body.step !== "pressure_test") return null;
  const { record } = entry.body.evidence;
  return record.kept === "inline" ? (record.readings.at(-1)?.kPaGauge ?? null) : null;
}
type StepEntry = ReturnType<typeof useJobHere>["job"]["entries"][number];

interface How {
  method: NonNullable<JointCheck["method"]>;
  instrument: string;
  sensitivityGramPerYear: number | null;
}

function Fields({ touched }: { touched: readonly string[] }) {
  const { job } = useJobHere();
  const { draft, set } = useForm();
  const units = useUnits();
  const criteria = criteriaInForce("leak_check", job.state.criteria, {
    circuit: job.state.circuit,
    wet: job.state.wet,
  });
  const how = (draft._how ?? { method: "bubbles", instrument: "", sensitivityGramPerYear: null }) as How;
  const detectors = job.heading.tools.filter(({ kind }) => kind === "leak-detector");
  const joints = useField<JointCheck[]>("joints");
  const checks = joints.value ?? [];
  const answer = (index: number, result: JointCheck["result"]) =>
    joints.set(checks.map((check, at) => (at === index ? { ...check, ...how, result } : check)) as JointCheck[]);
  const done = checks.filter(({ result }) => result !== undefined).length;
  return (
    <>
      <PadField
        at="checkedAtGaugeKPa"
        label={leakCheckWords.pressureInTheCircuit}
        quantity="gaugePressure"
        usual={[300, 4500]}
      />
      <Section
        title={leakCheckWords.how}
        lead={
          criteria
            ? leakCheckWords.detectorHasToShow(
                units.both("leakRate", criteria.values.maxSensitivityGramPerYear),
                criteria.sources.join("; "),
              )
            : undefined
        }
      >
        <div className="grid items-end gap-3 pair:grid-cols-2">
          <SelectField
            label={leakCheckWords.method}
            value={how.method}
            choices={[
              { value: "bubbles", label: leakCheckWords.bubbles },
              { value: "electronic", label: leakCheckWords.electronicWithTraceGas },
              { value: "ultrasonic", label: leakCheckWords.ultrasonic },
              { value: "other", label: leakCheckWords.another },
            ]}
            onChange={(event) => set("_how", { ...how, method: event.target.value })}
          />
          <TextInput
            label={fieldsWords.instrumentOrSolution}
            list="leak-detectors"
            value={how.instrument}
            maxLength={120}
            onChange={(event) => set("_how", { ...how, instrument: event.target.value })}
          />
          <datalist id="leak-detectors">
            {detectors.map((tool) => (
              <option key={tool.id} value={tool.serial ? `${tool.name} (${tool.serial})` : tool.name} />
            ))}
          </datalist>
          <PadValue
            label={leakCheckWords.smallestLeakItShows}
            quantity="leakRate"
            usual={[0.5, 30]}
            mayBeUnknown
            value={how.sensitivityGramPerYear}
            onChange={(value) => set("_how", { ...how, sensitivityGramPerYear: value })}
          />
        </div>
      </Section>
      <Section title={leakCheckWords.jointsChecked(done, checks.length)} lead={leakCheckWords.pressWhatYouSee}>
        {joints.problem && <p className="font-medium text-refused">{joints.problem}</p>}
        <ul>
          {checks.map((check, index) => (
            <JointRow
              key={check.joint}
              check={check}
              index={index}
              onAnswer={(result) => answer(index, result)}
              {...(!touched.includes(check.joint) && {
                onDrop: () => joints.set(checks.filter((_, at) => at !== index)),
              })}
            />
          ))}
        </ul>
        <MoreJoints />
      </Section>
      <Words at="note" label={fieldsWords.note} optional long />
    </>
  );
}

function JointRow(props: {
  check: JointCheck;
  index: number;
  onAnswer: (result: NonNullable<JointCheck["result"]>) => void;
  onDrop?: () => void;
}) {
  const { check, index } = props;
  const { open } = useForm();
  const name = useId();
  const problems = [...open].filter(([path]) => path.startsWith(`joints.${index}.`));
  return (
    <li className="border-b border-hairline py-2" data-open-field={problems.length > 0 ? "" : undefined}>
      <fieldset className="flex flex-wrap items-center gap-x-4 gap-y-2">
        <legend className="contents">
          <span className="min-w-40 grow font-medium">{check.joint}</span>
        </legend>
        {(["tight", "leaking", "not-reached"] as const).map((result) => (
          <label
            key={result}
            className="grid min-h-(--control) cursor-pointer place-items-center rounded-control border border-edge bg-raised px-4 has-checked:border-action has-checked:font-semibold has-checked:shadow-[inset_0_0_0_2px_var(--action)] has-focus-visible:outline-2 has-focus-visible:outline-offset-2 has-focus-visible:outline-focus"
          >
            <input
              type="radio"
              className="sr-only"
              name={name}
              checked={check.result === result}
              onChange={() => props.onAnswer(result)}
            />
            {result === "tight"
              ? leakCheckWords.tight
              : result === "leaking"
                ? leakCheckWords.leaks
                : leakCheckWords.notReached}
          </label>
        ))}
        {props.onDrop && (
          <Button kind="plain" onClick={props.onDrop}>
            {fieldsWords.takeOff}
            <span className="sr-only"> {check.joint}</span>
          </Button>
        )}
      </fieldset>
      {check.result && (
        <p className="text-small text-ink-soft">
          {check.method}, {check.instrument || leakCheckWords.instrumentNotNamed}
        </p>
      )}
      {problems.length > 0 && (
        <StateMark
          state="needs-you"
          word={check.result ? leakCheckWords.nameTheInstrumentAbove : leakCheckWords.stillToBeChecked}
        />
      )}
    </li>
  );
}

function MoreJoints() {
  const { draft, set } = useForm();
  const checks = (draft.joints ?? []) as JointCheck[];
  return (
    <NameListAdd
      onAdd={(joint) => {
        if (!checks.some((check) => check.joint === joint)) set("joints", [...checks, { joint }]);
      }}
    />
  );
}

function NameListAdd({ onAdd }: { onAdd: (name: string) => void }) {
  const { draft, set } = useForm();
  const typed = String(draft._more ?? "");
  return (
    <div className="flex items-end gap-2">
      <TextInput
        className="grow"
        label={leakCheckWords.anotherJoint}
        value={typed}
        maxLength={120}
        onChange={(event) => set("_more", event.target.value)}
      />
      <Button
        onClick={() => {
          if (typed.trim() === "") return;
          onAdd(typed.trim());
          set("_more", "");
        }}
      >
        {fieldsWords.add}
      </Button>
    </div>
  );
}
