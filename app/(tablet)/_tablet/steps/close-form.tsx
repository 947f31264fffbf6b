"use client";

import { Section } from "@/components/ui/section";
import { OneOf, Words, YesNo } from "../form/fields";
import { EvidenceForm, type StepFormProps } from "../job/evidence-form";

const blank = () => ({ portLeakCheck: {}, photos: [], note: null });

export function CloseForm(props: StepFormProps) {
  return (
    <EvidenceForm {...props} step="close" blank={blank} verb="Record cores and caps">
      <Section title="Ports">
        <YesNo at="coresIn" label="Valve cores back in" />
        <YesNo at="capsWithSealsFitted" label="Caps on, with their seals" />
        <YesNo at="capsTightened" label="Caps tightened" hint="To the maker's torque." />
      </Section>
      <Section title="Leak check of the ports">
        <OneOf
          at="portLeakCheck.method"
          label="Method"
          options={[
            { value: "bubbles", label: "Bubbles" },
            { value: "electronic", label: "Electronic" },
            { value: "ultrasonic", label: "Ultrasonic" },
            { value: "other", label: "Another" },
          ]}
        />
        <Words at="portLeakCheck.instrument" label="Instrument or solution" />
        <OneOf
          at="portLeakCheck.result"
          label="Result"
          columns={3}
          options={[
            { value: "tight", label: "Tight" },
            { value: "leaking", label: "Leaks" },
            { value: "not-done", label: "Not done" },
          ]}
        />
      </Section>
      <Words at="note" label="Note" optional long />
    </EvidenceForm>
  );
}
