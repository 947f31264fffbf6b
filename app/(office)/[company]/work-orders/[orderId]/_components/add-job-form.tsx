"use client";

import { useActionState } from "react";
import { Button } from "@/components/ui/button";
import { keepTyped } from "@/components/ui/keep-typed";
import { SelectField } from "@/components/ui/select-field";
import { jobKinds, jobKindWord } from "@/lib/work/words";
import { addJob } from "../actions";

export function AddJobForm(props: {
  company: string;
  orderId: string;
  circuits: readonly { id: string; name: string; actualRefrigerant: string | null; equipment: { name: string } }[];
}) {
  const [outcome, add, pending] = useActionState(addJob, null);
  const errors: Readonly<Record<string, string>> = outcome && !outcome.ok ? outcome.error.fields : {};
  return (
    <form action={add} onSubmit={keepTyped(add, pending)} className="flex flex-wrap items-end gap-3">
      <input type="hidden" name="company" value={props.company} />
      <input type="hidden" name="orderId" value={props.orderId} />
      <SelectField
        label="Circuit"
        name="circuitId"
        emptyChoice="Choose a circuit"
        choices={props.circuits.map((each) => ({
          value: each.id,
          label: `${each.equipment.name}, ${each.name}, ${each.actualRefrigerant ?? "refrigerant unknown"}`,
        }))}
        error={errors.circuitId}
      />
      <SelectField
        label="Kind of job"
        name="jobKind"
        defaultValue="unknown"
        choices={jobKinds.map((each) => ({ value: each, label: jobKindWord[each] }))}
        error={errors.jobKind}
      />
      <Button type="submit" kind="quiet" pending={pending}>
        Add a circuit job
      </Button>
    </form>
  );
}
