"use client";

import { useState } from "react";
import type { Values } from "@/components/registry/register-field";
import { type FormAction, type FormPart, RegisterForm } from "@/components/registry/register-form";
import { VolumeEstimateWords } from "@/components/registry/volume-estimate";
import { circuitForm } from "@/lib/registry/circuit";
import { estimateCircuitVolume, type VolumeFacts } from "@/lib/registry/circuit-volume";
import { readForm } from "@/lib/registry/form";

/** The circuit's form; the volume that could be estimated from what is typed stands under it all the while. */
export function CircuitForm(props: {
  action: FormAction;
  hidden: Readonly<Record<string, string>>;
  parts: readonly FormPart[];
  values: Values;
  facts: VolumeFacts;
  submit: string;
  cancel: string;
}) {
  const { facts: initialFacts, ...form } = props;
  const [facts, setFacts] = useState<VolumeFacts | null>(initialFacts);
  return (
    <RegisterForm {...form} onValues={(typed) => setFacts(factsOf(typed, Object.keys(form.hidden)))}>
      <div aria-live="polite" className="border-l-3 border-edge bg-sunk px-4 py-3">
        {facts ? (
          <VolumeEstimateWords estimate={estimateCircuitVolume(facts)} />
        ) : (
          <p className="text-ink-soft">The estimate comes back when every figure can be read.</p>
        )}
      </div>
    </RegisterForm>
  );
}

/** The figures typed so far; the basis is left aside, because the estimate must not depend on whether it is used. */
function factsOf(typed: FormData, notFields: readonly string[]): VolumeFacts | null {
  const form = new FormData();
  for (const [name, value] of typed) if (name === "unitSystem" || !notFields.includes(name)) form.append(name, value);
  form.set("internalVolumeBasis", "unknown");
  form.set("internalVolumeL", "");
  form.set("refrigerantState", "unknown");
  form.set("actualRefrigerant", "");
  form.set("name", "-");
  const read = readForm(form, circuitForm);
  return read.ok ? read.value : null;
}
