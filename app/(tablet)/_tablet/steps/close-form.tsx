"use client";

import { Section } from "@/components/ui/section";
import { closeWords } from "@/lib/words/en/close";
import { fieldsWords } from "@/lib/words/en/fields";
import { OneOf, Words, YesNo } from "../form/fields";
import { EvidenceForm, type StepFormProps } from "../job/evidence-form";

const blank = () => ({ portLeakCheck: {}, photos: [], note: null });

export function CloseForm(props: StepFormProps) {
  return (
    <EvidenceForm {...props} step="close" blank={blank} verb={closeWords.recordCoresAndCaps}>
      <Section title={closeWords.ports}>
        <YesNo at="coresIn" label={closeWords.valveCoresBack} />
        <YesNo at="capsWithSealsFitted" label={closeWords.capsOnWithTheir} />
        <YesNo at="capsTightened" label={closeWords.capsTightened} hint={closeWords.toTheMakersTorque} />
      </Section>
      <Section title={closeWords.leakCheck}>
        <OneOf
          at="portLeakCheck.method"
          label={closeWords.method}
          options={[
            { value: "bubbles", label: closeWords.bubbles },
            { value: "electronic", label: closeWords.electronic },
            { value: "ultrasonic", label: closeWords.ultrasonic },
            { value: "other", label: closeWords.another },
          ]}
        />
        <Words at="portLeakCheck.instrument" label={fieldsWords.instrumentOrSolution} />
        <OneOf
          at="portLeakCheck.result"
          label={closeWords.result}
          columns={3}
          options={[
            { value: "tight", label: closeWords.tight },
            { value: "leaking", label: closeWords.leaks },
            { value: "not-done", label: closeWords.notDone },
          ]}
        />
      </Section>
      <Words at="note" label={fieldsWords.note} optional long />
    </EvidenceForm>
  );
}
