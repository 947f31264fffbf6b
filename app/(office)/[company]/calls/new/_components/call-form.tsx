"use client";

import { useRouter } from "next/navigation";
import { useActionState } from "react";
import { Button } from "@/components/ui/button";
import { RadioCards } from "@/components/ui/choice-cards";
import { keepTyped } from "@/components/ui/keep-typed";
import { ErrorNotice } from "@/components/ui/notices";
import { Section } from "@/components/ui/section";
import { SelectField } from "@/components/ui/select-field";
import { TextArea, TextInput } from "@/components/ui/text-input";
import { VisitFields } from "@/components/work/visit-fields";
import type { Intake } from "@/lib/db/intake";
import type { FieldErrors } from "@/lib/registry/form";
import { jobKinds, jobKindWord, urgencies, urgencyWord } from "@/lib/work/words";
import { saveCall } from "../actions";
import { WindowOffers } from "./window-offers";

export function CallForm(props: {
  company: string;
  customerId: string;
  sites: Intake["sites"];
  site: Intake["site"];
  unit: Intake["unit"];
  technicians: Intake["technicians"];
}) {
  const { company, customerId, sites, site, unit } = props;
  const router = useRouter();
  const [outcome, save, pending] = useActionState(saveCall, null);
  const errors: FieldErrors = outcome && !outcome.ok ? outcome.error.fields : {};
  const go = (query: Record<string, string>) =>
    router.push(`/${company}/calls/new?${new URLSearchParams({ customer: customerId, ...query })}`, { scroll: false });
  return (
    <form action={save} onSubmit={keepTyped(save, pending)} className="grid gap-6">
      <input type="hidden" name="company" value={company} />
      <input type="hidden" name="customerId" value={customerId} />
      {errors[""] && <ErrorNotice happened={errors[""]} />}
      <Section title="Where and which unit">
        <SelectField
          label="Site"
          name="siteId"
          value={site?.id ?? ""}
          onChange={(event) => go({ site: event.target.value })}
          emptyChoice="Choose a site"
          choices={sites.map((each) => ({
            value: each.id,
            label: [each.name, each.street, each.city].filter(Boolean).join(", "),
          }))}
          error={errors.siteId}
        />
        {site && (
          <SelectField
            label="Unit"
            name="equipmentId"
            value={unit?.id ?? ""}
            onChange={(event) => go({ site: site.id, unit: event.target.value })}
            emptyChoice="Not said yet"
            choices={site.equipment.map((each) => ({
              value: each.id,
              label: [each.name, each.place].filter(Boolean).join(", "),
            }))}
            error={errors.equipmentId}
          />
        )}
      </Section>
      <Section title="What is wrong">
        <TextArea label="In the caller's words" name="symptom" rows={3} error={errors.symptom} />
        <TextInput label="Who is on the phone" name="caller" optional error={errors.caller} />
        <RadioCards
          label="How urgent"
          name="urgency"
          columns={2}
          defaultValue="soon"
          cards={urgencies.map((each) => ({ value: each, label: urgencyWord[each] }))}
          error={errors.urgency}
        />
      </Section>
      <Section title="When and who" lead="May be left empty: the call then waits in the list.">
        {site && <WindowOffers key={site.id} company={company} siteId={site.id} />}
        <VisitFields technicians={props.technicians} errors={errors} />
        {unit && unit.circuits.length > 0 && (
          <>
            <SelectField
              label="Circuit to be opened"
              name="circuitId"
              emptyChoice="None, or not known yet"
              choices={unit.circuits.map((each) => ({
                value: each.id,
                label: `${each.name}, ${each.actualRefrigerant ?? each.nameplateRefrigerant ?? "refrigerant unknown"}`,
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
          </>
        )}
      </Section>
      <div>
        <Button type="submit" kind="action" pending={pending} pendingWord="Saving">
          Save the call
        </Button>
      </div>
    </form>
  );
}
