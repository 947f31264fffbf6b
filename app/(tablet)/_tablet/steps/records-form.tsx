"use client";

import { Section } from "@/components/ui/section";
import { fieldsWords } from "@/lib/words/en/fields";
import { recordsWords } from "@/lib/words/en/records";
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
    <SignatureField at="customerSignature" label={recordsWords.signatureForTheCustomer} of={recordsWords.thatTheWork} />
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
      verb={recordsWords.signForTheWork}
      finish={(draft) => (draft.customerAbsent ? { ...draft, customerSignature: null } : draft)}
    >
      <p>{recordsWords.signedBy(<strong key="name">{person.name}</strong>)}</p>
      <Words at="signedByCertificate" label={recordsWords.yourCertificate} hint={recordsWords.typeAndNumber} optional />
      <YesNo at="customerAbsent" label={recordsWords.nobodyWasThere} />
      <CustomerSignature />
      <YesNo at="labelAttached" label={recordsWords.labelLeft} hint={recordsWords.refrigerantChargeDateCompany} />
      {verificationDue && (
        <Section title={recordsWords.verificationTests} lead={recordsWords.leakRateDutiesApply}>
          <Day at="verification.initialTestOn" label={recordsWords.initialTestMade} />
          <YesNo at="verification.initialTestPassed" label={recordsWords.itPassed} />
          <Day at="verification.followUpDueBy" label={recordsWords.followUpTestDue} />
        </Section>
      )}
      {state.wet && (
        <Day at="recheckDueBy" label={recordsWords.acidAndMoistureLooked} hint={recordsWords.usuallyAfter24} />
      )}
      {state.flammable && (
        <Section title={fieldsWords.forAFlammableRefrigerant}>
          <Words at="flammable.labelClass" label={recordsWords.safetyClass} />
          <Words at="flammable.competence" label={recordsWords.yourCompetenceForFlammables} />
        </Section>
      )}
      <Words at="note" label={fieldsWords.note} optional long />
    </EvidenceForm>
  );
}
