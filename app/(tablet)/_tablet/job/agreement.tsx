"use client";

import { useState } from "react";
import { Button } from "@/components/ui/button";
import { Sheet, SheetButtons } from "@/components/ui/dialog";
import { LoadingLines } from "@/components/ui/progress";
import { StateMark } from "@/components/ui/state-mark";
import { TextInput } from "@/components/ui/text-input";
import type { EntryContent } from "@/lib/hvac/procedure";
import { customerAgreementWords } from "@/lib/words/en/customer-agreement";
import { fieldsWords } from "@/lib/words/en/fields";
import { agreementWords, standingAgreement } from "@/lib/work/agreement";
import { evidenceOf } from "../form/draft";
import { OneOf, Words } from "../form/fields";
import { FormProvider, useForm, withoutAnswered } from "../form/form-context";
import { useDraft } from "../form/use-draft";
import { SignatureField } from "../pictures/signature-field";
import { PROGRAM } from "./entry-check";
import { useJobHere } from "./job-context";

/** What the customer agreed to, before the circuit is opened: who said so, for what, and up to how much. */
export function AgreementLine() {
  const { job } = useJobHere();
  const [open, setOpen] = useState(false);
  const standing = standingAgreement(job.entries);
  return (
    <div className="grid grid-cols-[minmax(0,1fr)_auto] items-center gap-x-4 gap-y-2 border-y border-hairline py-2 desk:grid-cols-1">
      <div>
        <StateMark
          state={standing ? "proven" : "needs-you"}
          word={standing ? customerAgreementWords.agreedWithTheCustomer : customerAgreementWords.notAgreed}
        />
        {standing && (
          <p className="text-small text-ink-soft">
            {agreementWords(standing.body)}. {standing.body.scope}
          </p>
        )}
      </div>
      <Sheet
        side="bottom"
        title={customerAgreementWords.whatTheCustomerAgreed}
        lead={customerAgreementWords.itIsWrittenInto}
        open={open}
        onOpenChange={setOpen}
        trigger={
          <Button>{standing ? customerAgreementWords.agreedAnew : customerAgreementWords.recordTheAgreement}</Button>
        }
      >
        <AgreementForm onDone={() => setOpen(false)} />
      </Sheet>
    </div>
  );
}

function AgreementForm({ onDone }: { onDone: () => void }) {
  const { job } = useJobHere();
  const form = useDraft(job.id, "work-agreed", () => ({ limit: null, signature: null, _currency: "USD" }));
  const [problems, setProblems] = useState<ReadonlyMap<string, string>>(new Map());
  const [pending, setPending] = useState(false);
  if (form.draft === undefined) return <LoadingLines lines={4} />;
  const { draft } = form;
  function set(path: string, value: unknown) {
    form.set(path, value);
    setProblems((open) => withoutAnswered(open, path));
  }

  async function save() {
    const typed = String(draft._amount ?? "").trim();
    const amount = Number(typed.replace(",", "."));
    if (typed !== "" && !(amount > 0)) return setProblems(new Map([["_amount", customerAgreementWords.aSumAbove0]]));
    const limit = typed === "" ? null : { amount, currency: String(draft._currency ?? "").toUpperCase() };
    const signature = draft.how === "signed-here" ? draft.signature : null;
    if (draft.how === "signed-here" && !signature)
      return setProblems(new Map([["signature", customerAgreementWords.drawOrType]]));
    setPending(true);
    const body = { ...evidenceOf(draft), limit, signature };
    const found = await job.record({ kind: "work-agreed", body } as unknown as EntryContent); // checked before it is saved
    setPending(false);
    setProblems(new Map(found.map(({ path, message }) => [path === "limit.currency" ? "_currency" : path, message])));
    if (found.length > 0) return;
    await form.clear();
    onDone();
  }

  return (
    <div className="grid gap-4">
      <FormProvider value={{ draft, set, open: problems }}>
        <Words
          at="scope"
          label={customerAgreementWords.whatIs}
          hint={customerAgreementWords.inTheCustomersWords}
          long
        />
        <div className="grid items-end gap-3 pair:grid-cols-2">
          <Line at="_amount" label={customerAgreementWords.spendingLimitMay} numeric />
          <Line at="_currency" label={customerAgreementWords.currency} />
        </div>
        <Words at="by" label={customerAgreementWords.whoAgreed} hint={customerAgreementWords.nameAndForWhom} />
        <OneOf
          at="how"
          label={customerAgreementWords.how}
          options={[
            { value: "signed-here", label: customerAgreementWords.signsOnThisTablet },
            { value: "spoken-here", label: customerAgreementWords.saidHere },
            { value: "by-phone", label: customerAgreementWords.byPhone },
            { value: "with-office", label: customerAgreementWords.agreedWithTheOffice },
          ]}
        />
        {draft.how === "signed-here" && (
          <SignatureField
            at="signature"
            label={customerAgreementWords.signatureForTheAgreement}
            of={customerAgreementWords.thatTheWorkAbove}
          />
        )}
      </FormProvider>
      {problems.size > 0 && (
        <p role="alert" className="font-medium text-refused">
          {problems.get(PROGRAM) ?? customerAgreementWords.stillOpenAboveNothing}
        </p>
      )}
      <SheetButtons>
        <Button kind="action" pending={pending} pendingWord={fieldsWords.savingHere} onClick={() => void save()}>
          {customerAgreementWords.recordTheAgreement}
        </Button>
        <Button onClick={onDone}>{fieldsWords.back}</Button>
      </SheetButtons>
    </div>
  );
}

function Line({ at, label, numeric = false }: { at: string; label: string; numeric?: boolean }) {
  const { draft, set, open } = useForm();
  return (
    <TextInput
      label={label}
      value={String(draft[at] ?? "")}
      error={open.get(at)}
      {...(numeric && { inputMode: "decimal" as const })}
      maxLength={numeric ? 12 : 3}
      onChange={(event) => set(at, event.target.value)}
    />
  );
}
