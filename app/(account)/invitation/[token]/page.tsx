import type { Metadata } from "next";
import { LinkButton } from "@/components/ui/button";
import { EmptyState } from "@/components/ui/notices";
import { SubmitButton } from "@/components/ui/submit-button";
import { hashOfToken } from "@/lib/auth/invitation-token";
import { currentPerson } from "@/lib/auth/session";
import { findInvitation } from "@/lib/db/gate";
import { JoinForm } from "./_components/join-form";
import { joinAsKnownPerson } from "./actions";

export const metadata: Metadata = { title: "Invitation", referrer: "no-referrer", robots: "noindex" };

export default async function InvitationPage({ params }: { params: Promise<{ token: string }> }) {
  const { token } = await params;
  const offer = await findInvitation(hashOfToken(token));
  if (!offer) {
    return (
      <header className="grid gap-1">
        <h1 className="text-title">This invitation cannot be used</h1>
        <p>It was used already, taken back, or has run out. Ask the person who sent it for a new link.</p>
      </header>
    );
  }
  const person = await currentPerson();
  return (
    <>
      <header className="grid gap-1">
        <h1 className="text-title">Join {offer.company_name}</h1>
        <p className="text-ink-soft">
          As {offer.roles.join(", ")}, for {offer.email}.
        </p>
      </header>
      {person?.email === offer.email ? (
        <form action={joinAsKnownPerson}>
          <input type="hidden" name="token" value={token} />
          <SubmitButton>Join as {person.name}</SubmitButton>
        </form>
      ) : offer.known_person || person ? (
        <EmptyState
          title={person ? "You are signed in as someone else" : "You have an account already"}
          action={
            <LinkButton
              kind="action"
              href={person ? "/sign-out" : `/sign-in?callbackUrl=${encodeURIComponent(`/invitation/${token}`)}`}
            >
              {person ? "Sign out" : "Sign in to join"}
            </LinkButton>
          }
        >
          <p>The invitation is for {offer.email}.</p>
        </EmptyState>
      ) : (
        <JoinForm token={token} name={offer.name} email={offer.email} />
      )}
    </>
  );
}
