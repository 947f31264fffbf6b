import type { Metadata } from "next";
import { redirect } from "next/navigation";
import { currentPerson } from "@/lib/auth/session";
import { SignInForm } from "./_components/sign-in-form";

export const metadata: Metadata = { title: "Sign in" };

export default async function SignInPage({
  searchParams,
}: {
  searchParams: Promise<{ callbackUrl?: string | string[] }>;
}) {
  if (await currentPerson()) redirect("/");
  const next = ownPath((await searchParams).callbackUrl);
  return (
    <div data-place={next.startsWith("/t/") ? "tablet" : undefined} className="grid gap-6 text-body">
      <h1 className="text-title">Sign in</h1>
      <SignInForm next={next} />
      <p className="text-small text-ink-soft">
        No account yet? A supervisor or owner of your company can send you an invitation link.
      </p>
    </div>
  );
}

/** Only a path of this very site may follow a sign-in. */
function ownPath(given: string | string[] | undefined): string {
  return typeof given === "string" && /^\/(?![/\\])/.test(given) ? given : "/";
}
