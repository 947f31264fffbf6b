"use client";

import { Section } from "@/components/ui/section";
import { useDevice } from "../device/device-context";
import type { Draft } from "../form/draft";
import { Day, Words, YesNo } from "../form/fields";
import { useField } from "../form/form-context";
import { EvidenceForm, type StepFormProps } from "../job/evidence-form";
import { useJobHere } from "../job/job-context";
import { SignatureField } from "../pictures/signature-field";

function CustomerSignature() {
  const absent = useField<boolean>("customerAbsent");
  if (absent.value !== false) return null;
  return (
    <SignatureField
      at="customerSignature"
      label="Signature for the customer"
      of="That the work was done and what was done was explained. It approves no price."
    />
  );
}

export function RecordsForm(props: StepFormProps) {
  const { person, desk } = useDevice();
  const { job } = useJobHere();
  const { state } = job;
  const verificationDue =
    state.circuit?.appliance.leakRulesApply === true &&
    (state.kindInForce === "leak_repair" || state.kindInForce === "unknown");
  const fact = state.circuit?.refrigerant;
  const blank = (): Draft => ({
    signedBy: desk.person,
    signedByCertificate: null,
    customerSignature: null,
    verification: verificationDue ? {} : null,
    recheckDueBy: null,
    flammable: state.flammable ? { ...(fact?.state === "identified" && { labelClass: fact.safetyClass }) } : null,
    note: null,
  });
  return (
    <EvidenceForm
      {...props}
      step="records"
      blank={blank}
      verb="Sign for the work"
      finish={(draft) => (draft.customerAbsent ? { ...draft, customerSignature: null } : draft)}
    >
      <p>
        Signed by <strong>{person.name}</strong>, as signed in on this tablet.
      </p>
      <Words at="signedByCertificate" label="Your certificate" hint="Type and number." optional />
      <YesNo at="customerAbsent" label="Nobody was there to sign for the customer" />
      <CustomerSignature />
      <YesNo at="labelAttached" label="Label left on the unit" hint="Refrigerant, charge, date, company." />
      {verificationDue && (
        <Section title="Verification tests" lead="Leak-rate duties apply to this circuit.">
          <Day at="verification.initialTestOn" label="Initial test made on" />
          <YesNo at="verification.initialTestPassed" label="It passed" />
          <Day at="verification.followUpDueBy" label="Follow-up test due by" />
        </Section>
      )}
      {state.wet && (
        <Day
          at="recheckDueBy"
          label="Acid and moisture looked at again by"
          hint="Usually after 24 to 48 hours of running."
        />
      )}
      {state.flammable && (
        <Section title="For a flammable refrigerant">
          <Words at="flammable.labelClass" label="Safety class on the label" />
          <Words at="flammable.competence" label="Your competence for flammables" />
        </Section>
      )}
      <Words at="note" label="Note" optional long />
    </EvidenceForm>
  );
}
