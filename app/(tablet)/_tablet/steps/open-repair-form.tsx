"use client";

import { Section } from "@/components/ui/section";
import { Moment, OneOf, Words, YesNo } from "../form/fields";
import { useField, useForm } from "../form/form-context";
import { NameList } from "../form/list-field";
import { PadField } from "../form/pad-field";
import { EvidenceForm, type StepFormProps } from "../job/evidence-form";
import { useJobHere } from "../job/job-context";

/** Places of a circuit where joints usually are; pressed, not typed. */
const USUAL_JOINTS = [
  "Compressor suction",
  "Compressor discharge",
  "Liquid drier in",
  "Liquid drier out",
  "Suction drier in",
  "Suction drier out",
  "Liquid service valve",
  "Suction service valve",
  "Metering device",
  "Evaporator in",
  "Evaporator out",
  "Condenser in",
  "Condenser out",
] as const;

export function OpenRepairForm(props: StepFormProps) {
  const { job } = useJobHere();
  const blank = () => ({
    parts: [],
    joints: [],
    flammable: job.state.flammable ? { lflPercentBeforeFlame: null } : null,
    photos: [],
    note: null,
  });
  return (
    <EvidenceForm {...props} step="open_repair" blank={blank} verb="Record the repair">
      <Fields flammable={job.state.flammable} />
    </EvidenceForm>
  );
}

function Fields({ flammable }: { flammable: boolean }) {
  const { draft } = useForm();
  const brazed = draft.brazing !== undefined && draft.brazing !== "not-brazed";
  return (
    <>
      <Section title="Open">
        <Moment at="openedAt" label="Circuit opened" nowWord="Opened now" />
        <Moment at="closedAt" label="Circuit closed again" nowWord="Closed now" />
        <YesNo at="openEndsCapped" label="Open ends kept capped" />
      </Section>
      <Section title="Repair">
        <Words at="work" label="What was done" long />
        <YesNo
          at="majorRepair"
          label="Compressor, condenser, evaporator or heat exchanger came out"
          hint="A major repair in the sense of 40 CFR 82.152."
        />
        <Parts />
        <NameList
          at="joints"
          label="Every joint touched"
          hint="The leak check follows this list, joint by joint."
          suggestions={USUAL_JOINTS}
          addWord="Add"
        />
      </Section>
      <OneOf
        at="brazing"
        label="Brazing"
        columns={3}
        options={[
          { value: "nitrogen-flowing", label: "With nitrogen flowing" },
          { value: "without-nitrogen", label: "Without nitrogen" },
          { value: "not-brazed", label: "Nothing brazed" },
        ]}
      />
      <OneOf
        at="newDrier"
        label="New drier"
        columns={3}
        options={[
          { value: "liquid", label: "Liquid line" },
          { value: "liquid-and-suction", label: "Liquid and suction" },
          { value: "none", label: "None" },
        ]}
      />
      <OneOf
        at="contamination"
        label="What was found inside"
        columns={3}
        options={[
          { value: "none", label: "Clean" },
          { value: "moisture", label: "Water, or open to air" },
          { value: "burn-out", label: "Burn-out" },
        ]}
      />
      <OneOf
        at="acidTest"
        label="Acid test of the oil"
        columns={3}
        options={[
          { value: "clean", label: "Clean" },
          { value: "acid", label: "Acid" },
          { value: "not-done", label: "Not done" },
        ]}
      />
      {flammable && (
        <Section title="For a flammable refrigerant">
          <YesNo at="flammable.purgedBeforeFlame" label="Purged with nitrogen before any flame" />
          {brazed && (
            <PadField
              at="flammable.lflPercentBeforeFlame"
              label="Gas measured before the flame, of the lower flammable limit"
              quantity="percent"
              usual={[0, 25]}
              mayBeUnknown
            />
          )}
        </Section>
      )}
      <Words at="note" label="Note" optional long />
    </>
  );
}

/** Parts fitted, with their serial where they have one. */
function Parts() {
  const { value, set } = useField<{ name: string; serial: string | null }[]>("parts");
  const { set: setAt, draft } = useForm();
  const parts = value ?? [];
  const next = (draft._part ?? {}) as { name?: string; serial?: string };
  return (
    <div className="grid gap-2">
      <div className="grid grid-cols-[2fr_1fr_auto] items-end gap-2">
        <label className="grid gap-1">
          <span className="font-medium">Part fitted</span>
          <input
            className="control"
            maxLength={200}
            value={next.name ?? ""}
            onChange={(event) => setAt("_part", { ...next, name: event.target.value })}
          />
        </label>
        <label className="grid gap-1">
          <span className="font-medium">Serial</span>
          <input
            className="control"
            maxLength={80}
            value={next.serial ?? ""}
            onChange={(event) => setAt("_part", { ...next, serial: event.target.value })}
          />
        </label>
        <button
          type="button"
          className="min-h-(--control) rounded-control border border-edge bg-raised px-4 font-semibold"
          onClick={() => {
            const name = (next.name ?? "").trim();
            if (name === "") return;
            set([...parts, { name, serial: (next.serial ?? "").trim() || null }]);
            setAt("_part", {});
          }}
        >
          Add
        </button>
      </div>
      <ul>
        {parts.map((part, index) => (
          <li
            key={`${part.name} ${part.serial}`}
            className="flex items-center justify-between border-b border-hairline"
          >
            <span>
              {part.name} {part.serial && <span className="text-ink-soft">{part.serial}</span>}
            </span>
            <button
              type="button"
              className="min-h-(--control) px-4 font-semibold text-action"
              onClick={() => set(parts.filter((_, at) => at !== index))}
            >
              Take off<span className="sr-only"> {part.name}</span>
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}
