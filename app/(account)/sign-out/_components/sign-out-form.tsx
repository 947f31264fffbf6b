"use client";

import { signOut } from "next-auth/react";
import { useState } from "react";
import { Button, LinkButton } from "@/components/ui/button";
import { markSignInChange } from "@/lib/sync/sign-in-mark";

export function SignOutForm() {
  const [pending, setPending] = useState(false);
  return (
    <div className="flex flex-wrap gap-3">
      <Button
        kind="action"
        pending={pending}
        pendingWord="Signing out"
        onClick={() => {
          setPending(true);
          markSignInChange();
          void signOut({ callbackUrl: "/sign-in" });
        }}
      >
        Sign out of this device
      </Button>
      <LinkButton href="/">Stay signed in</LinkButton>
    </div>
  );
}
