"use client";

import { Button } from "@/components/ui/button";
import { Section } from "@/components/ui/section";
import { evacuateWords } from "@/lib/words/en/evacuate";
import { fieldsWords } from "@/lib/words/en/fields";
import { OneOf } from "../form/fields";
import { useField } from "../form/form-context";
import { PadField } from "../form/pad-field";
import { onePartLeftIn } from "./dilution";
import { twoDigits } from "./hold-judging";

/** Pulls that were broken again before the last one, each with how deep it was and what it was broken with. */
export function Sweeps({ asked }: { asked: number }) {
  const { value, set } = useField<Record<string, unknown>[]>("sweeps");
  const sweeps = value ?? [];
  const parts = onePartLeftIn(sweeps);
  return (
    <Section title={evacuateWords.nitrogenSweeps(sweeps.length, asked)} lead={evacuateWords.sweepsLead}>
      {sweeps.map((_, index) => (
        <fieldset
          key={index}
          aria-label={evacuateWords.sweep(index + 1)}
          className="grid min-w-0 gap-3 border-l-3 border-edge pl-4"
        >
          <div className="flex items-center justify-between">
            <p className="font-semibold">{evacuateWords.sweep(index + 1)}</p>
            <Button kind="plain" onClick={() => set(sweeps.filter((_, at) => at !== index))}>
              {fieldsWords.takeOff}
              <span className="sr-only">: {evacuateWords.sweep(index + 1)}</span>
            </Button>
          </div>
          <div className="grid items-end gap-3 pair:grid-cols-3">
            <PadField
              at={`sweeps.${index}.pulledToMicron`}
              label={evacuateWords.pulledTo}
              quantity="vacuum"
              usual={[500, 25_000]}
            />
            <PadField
              at={`sweeps.${index}.brokenToKPaAbs`}
              label={evacuateWords.brokenTo}
              quantity="absolutePressure"
              usual={[100, 120]}
            />
            <PadField
              at={`sweeps.${index}.heldMinutes`}
              label={evacuateWords.stoodFor}
              quantity="minutes"
              usual={[1, 30]}
            />
          </div>
          <OneOf
            at={`sweeps.${index}.brokenWith`}
            label={evacuateWords.brokenWith}
            columns={3}
            options={[
              { value: "nitrogen", label: fieldsWords.dryNitrogen },
              { value: "air", label: fieldsWords.air },
              { value: "other", label: evacuateWords.somethingElse },
            ]}
          />
        </fieldset>
      ))}
      {parts !== null && <p className="text-ink-soft">{evacuateWords.onePartLeft(twoDigits(parts))}</p>}
      <Button onClick={() => set([...sweeps, { brokenWith: "nitrogen" }])}>{evacuateWords.addASweep}</Button>
    </Section>
  );
}
