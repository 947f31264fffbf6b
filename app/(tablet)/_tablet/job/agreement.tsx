"use client";

import { useState } from "react";
import { Button } from "@/components/ui/button";
import { Sheet } from "@/components/ui/dialog";
import { LoadingLines } from "@/components/ui/progress";
import { StateMark } from "@/components/ui/state-mark";
import { TextInput } from "@/components/ui/text-input";
import type { EntryContent } from "@/lib/hvac/procedure";
import { agreementWords, standingAgreement } from "@/lib/work/agreement";
import { evidenceOf } from "../form/draft";
import { OneOf, Words } from "../form/fields";
import { FormProvider, useForm } from "../form/form-context";
import { useDraft } from "../form/use-draft";
import { SignatureField } from "../pictures/signature-field";
import { useJobHere } from "./job-context";

/** What the customer agreed to, before the circuit is opened: who said so, for what, and up to how much. */
export function AgreementLine() {
  const { job } = useJobHere();
  const [open, setOpen] = useState(false);
  const standing = standingAgreement(job.entries);
  return (
    <div className="flex flex-wrap items-center justify-between gap-x-4 gap-y-2 border-y border-hairline py-2">
      <div>
        <StateMark
          state={standing ? "proven" : "needs-you"}
          word={standing ? "Agreed with the customer" : "Not agreed with the customer yet, as far as this tablet knows"}
        />
        {standing && (
          <p className="text-small text-ink-soft">
            {agreementWords(standing.body)}. {standing.body.scope}
          </p>
        )}
      </div>
      <Sheet
        side="bottom"
        title="What the customer agreed to"
        lead="It is written into the job's log. More found later is agreed anew."
        open={open}
        onOpenChange={setOpen}
        trigger={<Button>{standing ? "Agreed anew" : "Record the agreement"}</Button>}
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

  async function save() {
    const typed = String(draft._amount ?? "").trim();
    const amount = Number(typed.replace(",", "."));
    if (typed !== "" && !(amount > 0)) return setProblems(new Map([["_amount", "A sum above 0, in figures."]]));
    const limit = typed === "" ? null : { amount, currency: String(draft._currency ?? "").toUpperCase() };
    const signature = draft.how === "signed-here" ? draft.signature : null;
    if (draft.how === "signed-here" && !signature)
      return setProblems(new Map([["signature", "Draw or type it and keep it first."]]));
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
    <div className="mx-auto grid max-w-2xl gap-4">
      <FormProvider value={{ draft, set: form.set, open: problems }}>
        <Words at="scope" label="What is to be done" hint="In the customer's words where it can be." long />
        <div className="grid gap-3 wide:grid-cols-2">
          <Line at="_amount" label="Spending limit (may be left empty)" numeric />
          <Line at="_currency" label="Currency" />
        </div>
        <Words at="by" label="Who agreed" hint="Name, and for whom they speak." />
        <OneOf
          at="how"
          label="How"
          options={[
            { value: "signed-here", label: "Signs on this tablet" },
            { value: "spoken-here", label: "Said here" },
            { value: "by-phone", label: "By phone" },
            { value: "with-office", label: "Agreed with the office" },
          ]}
        />
        {draft.how === "signed-here" && (
          <SignatureField
            at="signature"
            label="Signature for the agreement"
            of="That the work above may be done, up to the limit named. More needs to be asked for again."
          />
        )}
      </FormProvider>
      {problems.size > 0 && (
        <p role="alert" className="font-medium text-refused">
          Still open above. Nothing was saved yet; what you typed is kept.
        </p>
      )}
      <div className="flex gap-3 *:first:grow">
        <Button kind="action" pending={pending} pendingWord="Saving here" onClick={() => void save()}>
          Record the agreement
        </Button>
        <Button onClick={onDone}>Back</Button>
      </div>
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
