"use client";

import { Section } from "@/components/ui/section";
import { fieldsWords } from "@/lib/words/en/fields";
import { openRepairWords } from "@/lib/words/en/open-repair";
import { Moment, OneOf, Words, YesNo } from "../form/fields";
import { useField, useForm } from "../form/form-context";
import { NameList } from "../form/list-field";
import { PadField } from "../form/pad-field";
import { EvidenceForm, type StepFormProps } from "../job/evidence-form";
import { useJobHere } from "../job/job-context";

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
    <EvidenceForm {...props} step="open_repair" blank={blank} verb={openRepairWords.recordTheRepair}>
      <Fields flammable={job.state.flammable} />
    </EvidenceForm>
  );
}

function Fields({ flammable }: { flammable: boolean }) {
  const { draft } = useForm();
  const brazed = draft.brazing !== undefined && draft.brazing !== "not-brazed";
  return (
    <>
      <Section title={openRepairWords.open}>
        <Moment at="openedAt" label={openRepairWords.circuitOpened} nowWord={openRepairWords.openedNow} />
        <Moment at="closedAt" label={openRepairWords.circuitClosedAgain} nowWord={openRepairWords.closedNow} />
        <YesNo at="openEndsCapped" label={openRepairWords.openEndsKeptCapped} />
      </Section>
      <Section title={openRepairWords.repair}>
        <Words at="work" label={openRepairWords.whatWasDone} long />
        <YesNo
          at="majorRepair"
          label={openRepairWords.compressorCondenserEvaporator}
          hint={openRepairWords.aMajorRepair}
        />
        <Parts />
        <NameList
          at="joints"
          label={openRepairWords.everyJointTouched}
          hint={openRepairWords.theLeakCheckFollows}
          suggestions={openRepairWords.usualJoints}
          addWord={fieldsWords.add}
        />
      </Section>
      <OneOf
        at="brazing"
        label={openRepairWords.brazing}
        columns={3}
        options={[
          { value: "nitrogen-flowing", label: openRepairWords.withNitrogenFlowing },
          { value: "without-nitrogen", label: openRepairWords.withoutNitrogen },
          { value: "not-brazed", label: openRepairWords.nothingBrazed },
        ]}
      />
      <OneOf
        at="newDrier"
        label={openRepairWords.newDrier}
        columns={3}
        options={[
          { value: "liquid", label: openRepairWords.liquidLine },
          { value: "liquid-and-suction", label: openRepairWords.liquidAndSuction },
          { value: "none", label: openRepairWords.none },
        ]}
      />
      <OneOf
        at="contamination"
        label={openRepairWords.whatWasFoundInside}
        columns={3}
        options={[
          { value: "none", label: openRepairWords.clean },
          { value: "moisture", label: openRepairWords.waterOrOpen },
          { value: "burn-out", label: openRepairWords.burnOut },
        ]}
      />
      <OneOf
        at="acidTest"
        label={openRepairWords.acidTest}
        columns={3}
        options={[
          { value: "clean", label: openRepairWords.clean },
          { value: "acid", label: openRepairWords.acid },
          { value: "not-done", label: openRepairWords.notDone },
        ]}
      />
      {flammable && (
        <Section title={fieldsWords.forAFlammableRefrigerant}>
          <YesNo at="flammable.purgedBeforeFlame" label={openRepairWords.purgedWithNitrogenBefore} />
          {brazed && (
            <PadField
              at="flammable.lflPercentBeforeFlame"
              label={openRepairWords.gasMeasuredBefore}
              quantity="percent"
              usual={[0, 25]}
              mayBeUnknown
            />
          )}
        </Section>
      )}
      <Words at="note" label={fieldsWords.note} optional long />
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
          <span className="font-medium">{openRepairWords.partFitted}</span>
          <input
            className="control"
            maxLength={200}
            value={next.name ?? ""}
            onChange={(event) => setAt("_part", { ...next, name: event.target.value })}
          />
        </label>
        <label className="grid gap-1">
          <span className="font-medium">{openRepairWords.serial}</span>
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
          {fieldsWords.add}
          <span className="sr-only">: {openRepairWords.partFitted}</span>
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
              {fieldsWords.takeOff}
              <span className="sr-only"> {part.name}</span>
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}
