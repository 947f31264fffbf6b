"use client";

import { useActionState } from "react";
import { passwordProblem } from "@/components/account/password-words";
import { ErrorNotice } from "@/components/ui/notices";
import { SubmitButton } from "@/components/ui/submit-button";
import { TextInput } from "@/components/ui/text-input";
import { joinAsNewPerson } from "../actions";

export function JoinForm({ token, name, email }: { token: string; name: string; email: string }) {
  const [outcome, join] = useActionState(joinAsNewPerson, null);
  const failure = outcome && !outcome.ok ? outcome.error : null;
  const passwordFailure = failure && failure.code !== "name-missing" && failure.code !== "not-usable" ? failure : null;
  return (
    <form action={join} className="grid gap-4">
      <input type="hidden" name="token" value={token} />
      {failure?.code === "not-usable" && (
        <ErrorNotice happened="The invitation could not be used." todo="Open the link again, or ask for a new one." />
      )}
      <TextInput label="E-mail" type="email" defaultValue={email} autoComplete="username" readOnly />
      <TextInput
        label="Your name"
        name="name"
        defaultValue={name}
        autoComplete="name"
        required
        error={failure?.code === "name-missing" ? "A name is needed: it stands on every record you make." : undefined}
      />
      <TextInput
        label="Password"
        name="next"
        type="password"
        autoComplete="new-password"
        required
        hint="At least 10 characters; a few words are better than signs."
        error={
          passwordFailure && passwordFailure.code !== "not-repeated" ? passwordProblem(passwordFailure) : undefined
        }
      />
      <TextInput
        label="Password again"
        name="again"
        type="password"
        autoComplete="new-password"
        required
        error={passwordFailure?.code === "not-repeated" ? passwordProblem(passwordFailure) : undefined}
      />
      <SubmitButton>Make my account and join</SubmitButton>
    </form>
  );
}
