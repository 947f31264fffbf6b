"use client";

import { useActionState } from "react";
import { passwordProblem } from "@/components/account/password-words";
import { LinkButton } from "@/components/ui/button";
import { SubmitButton } from "@/components/ui/submit-button";
import { TextInput } from "@/components/ui/text-input";
import { changePassword } from "../actions";

export function PasswordForm() {
  const [outcome, change] = useActionState(changePassword, null);
  if (outcome?.ok) {
    return (
      <div className="grid gap-3" role="status">
        <p>The password is changed and every device is signed out.</p>
        <LinkButton href="/sign-in" kind="action">
          Sign in with the new password
        </LinkButton>
      </div>
    );
  }
  const failure = outcome && !outcome.ok ? outcome.error : null;
  const aboutOld = failure?.code === "wrong-password" || failure?.code === "wait";
  return (
    <form action={change} className="grid gap-4">
      <TextInput
        label="Password now"
        name="now"
        type="password"
        autoComplete="current-password"
        required
        error={failure && aboutOld ? passwordProblem(failure) : undefined}
      />
      <TextInput
        label="New password"
        name="next"
        type="password"
        autoComplete="new-password"
        required
        hint="At least 10 characters; a few words are better than signs."
        error={failure && !aboutOld && failure.code !== "not-repeated" ? passwordProblem(failure) : undefined}
      />
      <TextInput
        label="New password again"
        name="again"
        type="password"
        autoComplete="new-password"
        required
        error={failure?.code === "not-repeated" ? passwordProblem(failure) : undefined}
      />
      <SubmitButton>Change the password</SubmitButton>
    </form>
  );
}
