"use client";

import { Button } from "@/components/ui/button";
import { Section } from "@/components/ui/section";
import { OneOf } from "../form/fields";
import { useField } from "../form/form-context";
import { PadField } from "../form/pad-field";

/** Pulls that were broken again before the last one, each with how deep it was and what it was broken with. */
export function Sweeps({ asked }: { asked: number }) {
  const { value, set } = useField<Record<string, unknown>[]>("sweeps");
  const sweeps = value ?? [];
  return (
    <Section
      title={`Nitrogen sweeps, ${sweeps.length}${asked > 0 ? ` of ${asked}` : ""}`}
      lead="Pull down, break slightly above the atmosphere with dry nitrogen, wait, pull again. Thins gas out; liquid water leaves only by evaporating."
    >
      {sweeps.map((_, index) => (
        <div key={index} className="grid gap-3 border-l-3 border-edge pl-4">
          <div className="flex items-center justify-between">
            <p className="font-semibold">Sweep {index + 1}</p>
            <Button kind="plain" onClick={() => set(sweeps.filter((_, at) => at !== index))}>
              Take off
            </Button>
          </div>
          <div className="grid gap-3 wide:grid-cols-3">
            <PadField at={`sweeps.${index}.pulledToMicron`} label="Pulled to" quantity="vacuum" usual={[500, 25_000]} />
            <PadField
              at={`sweeps.${index}.brokenToKPaAbs`}
              label="Broken to"
              quantity="absolutePressure"
              usual={[100, 120]}
            />
            <PadField at={`sweeps.${index}.heldMinutes`} label="Stood for" quantity="minutes" usual={[1, 30]} />
          </div>
          <OneOf
            at={`sweeps.${index}.brokenWith`}
            label="Broken with"
            columns={3}
            options={[
              { value: "nitrogen", label: "Dry nitrogen" },
              { value: "air", label: "Air" },
              { value: "other", label: "Something else" },
            ]}
          />
        </div>
      ))}
      <Button onClick={() => set([...sweeps, { brokenWith: "nitrogen" }])}>Add a sweep</Button>
    </Section>
  );
}
