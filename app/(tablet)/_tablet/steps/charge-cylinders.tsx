"use client";

import { useEffect } from "react";
import { Button } from "@/components/ui/button";
import { SelectField } from "@/components/ui/select-field";
import { TextInput } from "@/components/ui/text-input";
import { cylindersWords } from "@/lib/words/en/cylinders";
import { useField } from "../form/form-context";
import { PadField } from "../form/pad-field";
import { useJobHere } from "../job/job-context";

interface Weighing {
  cylinderId: string | null;
  label: string;
  refrigerant: string | null;
  grossBeforeKg?: number | null;
  grossAfterKg?: number | null;
}

/** The cylinders charged from; their loss on the scale is what went in. */
export function ChargeCylinders() {
  const { job } = useJobHere();
  const { value, set } = useField<Weighing[]>("cylinders");
  const net = useField<number>("weighedInKg");
  const weighings = value ?? [];
  const unused = job.heading.cylinders.filter(({ id }) => !weighings.some((each) => each.cylinderId === id));
  const outKg = lossOf(weighings);
  const { set: setNet, value: netKg } = net;
  useEffect(() => {
    if (outKg !== null && outKg !== netKg) setNet(outKg);
    // Only a new weighing fills it in: what the technician types over it stays.
  }, [outKg]);
  return (
    <div className="grid gap-3">
      {weighings.map((weighing, index) => (
        <fieldset
          key={weighing.cylinderId ?? `other ${index}`}
          aria-label={weighing.label || cylindersWords.anotherCylinder}
          className="grid min-w-0 gap-3 border-l-3 border-edge pl-4"
        >
          <div className="flex items-center justify-between gap-3">
            <p className="font-semibold">
              {weighing.cylinderId ? weighing.label : cylindersWords.anotherCylinder}
              {weighing.refrigerant && <span className="font-normal text-ink-soft"> {weighing.refrigerant}</span>}
            </p>
            <Button kind="plain" onClick={() => set(weighings.filter((_, at) => at !== index))}>
              {cylindersWords.takeOffTheList}
              <span className="sr-only">: {weighing.label || cylindersWords.anotherCylinder}</span>
            </Button>
          </div>
          {weighing.cylinderId === null && <Label at={`cylinders.${index}.label`} />}
          <div className="grid items-end gap-3 pair:grid-cols-2">
            <PadField at={`cylinders.${index}.grossBeforeKg`} label={cylindersWords.grossBefore} quantity="mass" />
            <PadField at={`cylinders.${index}.grossAfterKg`} label={cylindersWords.grossNowOrAfter} quantity="mass" />
          </div>
        </fieldset>
      ))}
      <SelectField
        label={cylindersWords.putACylinder}
        emptyChoice={cylindersWords.chooseACylinder}
        value=""
        choices={[
          ...unused.map(({ id, label, refrigerant }) => ({ value: id, label: `${label}, ${refrigerant ?? "empty"}` })),
          { value: "other", label: cylindersWords.oneThat },
        ]}
        onChange={(event) => {
          const chosen = unused.find(({ id }) => id === event.target.value);
          if (chosen)
            set([...weighings, { cylinderId: chosen.id, label: chosen.label, refrigerant: chosen.refrigerant }]);
          else if (event.target.value === "other")
            set([...weighings, { cylinderId: null, label: "", refrigerant: null }]);
        }}
      />
    </div>
  );
}

function Label({ at }: { at: string }) {
  const { value, set, problem } = useField<string>(at);
  return (
    <TextInput
      label={cylindersWords.numberOnIt}
      error={problem}
      value={value ?? ""}
      onChange={(event) => set(event.target.value)}
    />
  );
}

function lossOf(weighings: readonly Weighing[]): number | null {
  if (weighings.length === 0) return null;
  let sum = 0;
  for (const { grossBeforeKg, grossAfterKg } of weighings) {
    if (typeof grossBeforeKg !== "number" || typeof grossAfterKg !== "number") return null;
    sum += grossBeforeKg - grossAfterKg;
  }
  return Number(sum.toFixed(6));
}
