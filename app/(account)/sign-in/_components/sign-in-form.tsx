"use client";

import { signIn } from "next-auth/react";
import { useState } from "react";
import { Button } from "@/components/ui/button";
import { ErrorNotice } from "@/components/ui/notices";
import { TextInput } from "@/components/ui/text-input";
import { markSignInChange } from "@/lib/sync/sign-in-mark";

type Failure = { happened: string; todo?: string };

export function SignInForm({ next }: { next: string }) {
  const [pending, setPending] = useState(false);
  const [failure, setFailure] = useState<Failure | null>(null);

  async function submit(form: FormData) {
    setPending(true);
    setFailure(null);
    try {
      const answer = await signIn("credentials", {
        email: String(form.get("email")),
        password: String(form.get("password")),
        redirect: false,
      });
      if (answer?.ok) {
        markSignInChange();
        return window.location.assign(next);
      }
      setFailure(wordsFor(answer?.error ?? ""));
    } catch {
      setFailure({ happened: "The server did not answer.", todo: "Check the network and sign in again." });
    }
    setPending(false);
  }

  return (
    <form
      className="grid gap-4"
      onSubmit={(event) => {
        event.preventDefault();
        void submit(new FormData(event.currentTarget));
      }}
    >
      {failure && <ErrorNotice happened={failure.happened} todo={failure.todo} />}
      <TextInput label="E-mail" name="email" type="email" autoComplete="username" required autoFocus />
      <TextInput label="Password" name="password" type="password" autoComplete="current-password" required />
      <Button type="submit" kind="action" pending={pending} pendingWord="Signing in">
        Sign in
      </Button>
    </form>
  );
}

function wordsFor(error: string): Failure {
  const wait = /^wait:(\d+)$/.exec(error);
  if (wait) return { happened: "Too many wrong guesses.", todo: `Wait ${duration(Number(wait[1]))}, then try again.` };
  if (error === "wrong" || error === "CredentialsSignin") {
    return { happened: "E-mail and password do not belong together.", todo: "Check both and try again." };
  }
  return { happened: "Signing in did not work.", todo: "Try again; if it stays, tell whoever runs this server." };
}

function duration(seconds: number): string {
  return seconds < 90 ? `${seconds} s` : `${Math.ceil(seconds / 60)} min`;
}
