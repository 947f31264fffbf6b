"use client";

import { startTransition, useActionState, useState } from "react";
import { failureWords } from "@/components/registry/failure";
import { type FieldSpec, RegisterField } from "@/components/registry/register-field";
import { Button } from "@/components/ui/button";
import { ErrorNotice } from "@/components/ui/notices";
import { TextInput } from "@/components/ui/text-input";
import { invitePerson } from "../actions";

/** Invites by link: the link is shown here once, to be handed over by whatever way the shop trusts. */
export function InviteForm(props: { company: string; fields: readonly FieldSpec[] }) {
  const [outcome, dispatch, pending] = useActionState(invitePerson, null);
  const [copied, setCopied] = useState(false);
  const errors = outcome && !outcome.ok ? failureWords(outcome.error) : {};
  const link = outcome?.ok ? new URL(outcome.value.path, window.location.origin).href : null;
  return (
    <form
      className="grid max-w-3xl gap-4"
      noValidate
      action={dispatch}
      onSubmit={(event) => {
        event.preventDefault();
        const form = new FormData(event.currentTarget);
        setCopied(false);
        if (!pending) startTransition(() => dispatch(form));
      }}
    >
      <input type="hidden" name="company" value={props.company} />
      {errors[""] && <ErrorNotice happened={errors[""]} safe="Nobody was invited." />}
      <div className="grid items-end gap-4 wide:grid-cols-2">
        {props.fields.map((field) => (
          <RegisterField key={field.name} field={field} value={undefined} error={errors[field.name]} />
        ))}
      </div>
      <div>
        <Button type="submit" kind="action" pending={pending} pendingWord="Making the link">
          Make the invitation link
        </Button>
      </div>
      {link && outcome?.ok && (
        <div role="status" className="grid gap-2 border-l-3 border-action bg-sunk px-4 py-3">
          <TextInput
            label={`Link for ${outcome.value.email}`}
            hint="Shown this once. It works for seven days and one time."
            readOnly
            value={link}
            onFocus={(event) => event.currentTarget.select()}
          />
          <div>
            <Button onClick={() => void navigator.clipboard.writeText(link).then(() => setCopied(true))}>
              {copied ? "Copied" : "Copy the link"}
            </Button>
          </div>
        </div>
      )}
    </form>
  );
}
