import { Section } from "@/components/ui/section";
import { SubmitButton } from "@/components/ui/submit-button";
import { makeCalendar, takeBackCalendar } from "../calendar-actions";

export interface OwnCalendar {
  readonly slug: string;
  readonly companyName: string;
  /** Null: none was made. */
  readonly address: string | null;
}

/** The addresses at which a calendar program reads one's own visits, a company each. */
export function Calendars({ calendars }: { calendars: readonly OwnCalendar[] }) {
  return (
    <Section
      title="My visits in a calendar"
      lead="A calendar program that is given this address shows your visits and asks again by itself. Whoever has the address sees customers, addresses and times."
    >
      <ul className="grid">
        {calendars.map(({ slug, companyName, address }) => (
          <li key={slug} className="border-b border-hairline py-2">
            <form
              action={address ? takeBackCalendar : makeCalendar}
              className="flex flex-wrap items-center justify-between gap-3"
            >
              <input type="hidden" name="company" value={slug} />
              <span className="grid min-w-0">
                <span>{companyName}</span>
                {address && <span className="break-all font-mono text-small select-all">{address}</span>}
              </span>
              <SubmitButton kind="quiet">{address ? "Take the address back" : "Make an address"}</SubmitButton>
            </form>
          </li>
        ))}
      </ul>
    </Section>
  );
}
