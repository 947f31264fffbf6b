import type { Metadata } from "next";
import { LinkButton } from "@/components/ui/button";
import { Section } from "@/components/ui/section";
import { SubmitButton } from "@/components/ui/submit-button";
import { linkAddress } from "@/lib/auth/link-token";
import { requirePerson } from "@/lib/auth/session";
import { calendarFeedOf } from "@/lib/db/calendar-feeds";
import { listSessions, type Membership } from "@/lib/db/gate";
import { withTenant } from "@/lib/db/tenant";
import type { PersonId } from "@/lib/ids";
import { Calendars, type OwnCalendar } from "./_components/calendars";
import { PasswordForm } from "./_components/password-form";
import { endOneSession, signOutEverywhere } from "./actions";

export const metadata: Metadata = { title: "My account" };

export default async function AccountPage() {
  const person = await requirePerson();
  const sessions = await listSessions(person.personId);
  const calendars = await Promise.all(
    person.memberships
      .filter(({ roles }) => roles.includes("technician"))
      .map((membership) => calendarIn(membership, person.personId)),
  );
  return (
    <>
      <header className="grid gap-1">
        <h1 className="text-title">My account</h1>
        <p className="text-ink-soft">
          {person.name}, {person.email}
        </p>
      </header>
      <Section title="Where I am signed in" lead="Times are UTC.">
        <ul className="grid">
          {sessions.map((session) => (
            <li key={session.id} className="flex items-center justify-between gap-4 border-b border-hairline py-2">
              <span className="grid min-w-0">
                <span className="truncate">{deviceName(session.device)}</span>
                <span className="text-small text-ink-soft tabular-nums">
                  {session.id === person.sessionId
                    ? "this device"
                    : `last used ${session.last_seen_at.toISOString().slice(0, 16).replace("T", " ")}`}
                </span>
              </span>
              {session.id !== person.sessionId && (
                <form action={endOneSession}>
                  <input type="hidden" name="session" value={session.id} />
                  <SubmitButton kind="quiet">Sign this one out</SubmitButton>
                </form>
              )}
            </li>
          ))}
        </ul>
        <form action={signOutEverywhere}>
          <SubmitButton kind="danger">Sign out everywhere</SubmitButton>
        </form>
      </Section>
      {calendars.length > 0 && <Calendars calendars={calendars} />}
      <Section title="Password">
        <PasswordForm />
      </Section>
      <LinkButton href="/">Back to work</LinkButton>
    </>
  );
}

async function calendarIn({ companyId, slug, companyName }: Membership, person: PersonId): Promise<OwnCalendar> {
  const id = await withTenant(companyId, (tx) => calendarFeedOf(tx, person));
  return { slug, companyName, address: id && linkAddress("calendar", id) };
}

/** A browser and system name out of what the browser says of itself; the raw text when neither is known. */
function deviceName(userAgent: string): string {
  const browser = /(Edg|Firefox|Chrome|Safari)\//.exec(userAgent)?.[1]?.replace("Edg", "Edge");
  const system = /(Android|iPhone|iPad|Windows|Mac OS X|CrOS|Linux)/.exec(userAgent)?.[1];
  return [browser, system].filter(Boolean).join(" on ") || userAgent || "Unknown device";
}
