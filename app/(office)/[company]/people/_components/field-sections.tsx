import { RegisterForm } from "@/components/registry/register-form";
import { EmptyState } from "@/components/ui/notices";
import { Section } from "@/components/ui/section";
import { SubmitButton } from "@/components/ui/submit-button";
import { Table } from "@/components/ui/table";
import type { findFieldPerson } from "@/lib/db/dispatch/field-people";
import { clockWords, PERSON_TIME_KINDS, personTimeWord, WEEKDAYS } from "@/lib/registry/field-time";
import { whenAt } from "@/lib/work/site-time";
import { addTime, changeFieldProfile, changeWeek, withdrawTime } from "../field-actions";

type FieldPerson = NonNullable<Awaited<ReturnType<typeof findFieldPerson>>>;

/** When a person works and from where they go out: what the planner asks before it sends anybody. */
export function FieldSections(props: {
  company: string;
  timeZone: string;
  person: { personId: string; name: string };
  field: FieldPerson;
  others: readonly { personId: string; name: string }[];
}) {
  const { company, person, field, timeZone } = props;
  const hidden = { company, personId: person.personId };
  const profile = field.fieldProfiles[0];
  return (
    <>
      <Section
        title="Hours of an ordinary week"
        lead={`In the office's time (${timeZone}). Without hours nobody is planned.`}
      >
        <RegisterForm
          action={changeWeek}
          hidden={hidden}
          submit="Save the hours"
          saved="Hours saved"
          values={Object.fromEntries(WEEKDAYS.map((_, index) => [`day${index + 1}`, hoursOf(field, index + 1)]))}
          parts={[
            {
              fields: WEEKDAYS.map((day, index) => ({
                name: `day${index + 1}`,
                label: day,
                kind: "text" as const,
                optional: true,
                ...(index === 0 && { hint: "As 08:00-17:00; empty for a day off." }),
              })),
            },
          ]}
        />
      </Section>
      <Section title="Away and on call">
        <Table
          caption={`Times away and on call of ${person.name}`}
          captionHidden
          narrow="cards"
          rows={field.personTimes}
          rowKey={(each) => each.id}
          empty={<EmptyState title="Nothing coming" />}
          columns={[
            { key: "kind", header: "What", cell: ({ kind }) => personTimeWord[kind === "away" ? "away" : "on-call"] },
            { key: "from", header: "From", cell: ({ fromAt }) => whenAt(fromAt, timeZone) },
            { key: "to", header: "To", cell: ({ toAt }) => whenAt(toAt, timeZone) },
            { key: "note", header: "Note", cell: ({ note }) => note || "–" },
            {
              key: "withdraw",
              header: "",
              cell: (each) => (
                <form action={withdrawTime}>
                  {Object.entries({ ...hidden, timeId: each.id }).map(([name, value]) => (
                    <input key={name} type="hidden" name={name} value={value} />
                  ))}
                  <SubmitButton kind="plain">
                    Withdraw<span className="sr-only"> from {whenAt(each.fromAt, timeZone)}</span>
                  </SubmitButton>
                </form>
              ),
            },
          ]}
        />
        <RegisterForm
          action={addTime}
          hidden={hidden}
          submit="Add the time"
          saved="Time added"
          again
          values={{ kind: "away" }}
          parts={[
            {
              fields: [
                {
                  name: "kind",
                  label: "What",
                  kind: "select",
                  choices: PERSON_TIME_KINDS.map((value) => ({ value, label: personTimeWord[value] })),
                },
                { name: "note", label: "Note", kind: "text", optional: true },
                { name: "fromDay", label: "First day", kind: "date" },
                { name: "fromClock", label: "From", kind: "text", optional: true, hint: "As 08:00; empty: all day." },
                { name: "toDay", label: "Last day", kind: "date" },
                { name: "toClock", label: "Until", kind: "text", optional: true },
              ],
            },
          ]}
        />
      </Section>
      <Section title="Going out" lead="Where the day begins, and with whom. Empty: from the company's yard, alone.">
        <RegisterForm
          action={changeFieldProfile}
          hidden={hidden}
          submit="Save"
          saved="Saved"
          values={{
            baseName: profile?.baseName ?? "",
            latitude: numberOf(profile?.latitude),
            longitude: numberOf(profile?.longitude),
            endsAtBase: (profile?.endsAtBase ?? true) ? "on" : "",
            isApprentice: profile?.isApprentice ? "on" : "",
            ridesWith: profile?.ridesWith ?? "",
            maxVisits: numberOf(profile?.maxVisits),
          }}
          parts={[
            {
              fields: [
                { name: "baseName", label: "Base", kind: "text", optional: true },
                { name: "maxVisits", label: "Visits a day, at most", kind: "number", optional: true },
                { name: "latitude", label: "Latitude", kind: "number", unit: "°", optional: true },
                { name: "longitude", label: "Longitude", kind: "number", unit: "°", optional: true },
                {
                  name: "ridesWith",
                  label: "Rides with",
                  kind: "select",
                  emptyChoice: "Nobody",
                  choices: props.others.map(({ personId, name }) => ({ value: personId, label: name })),
                  hint: "The two are planned as one.",
                },
                { name: "endsAtBase", label: "The day ends at the base", kind: "tick" },
                {
                  name: "isApprentice",
                  label: "Apprentice",
                  kind: "tick",
                  hint: "Never sent alone, and brings no certificate.",
                },
              ],
            },
          ]}
        />
      </Section>
    </>
  );
}

function hoursOf(field: FieldPerson, weekday: number): string {
  const shift = field.weeklyShifts.find((each) => each.weekday === weekday);
  if (shift?.beginsMinute == null || shift.endsMinute === null) return "";
  return `${clockWords(shift.beginsMinute)}-${clockWords(shift.endsMinute)}`;
}

const numberOf = (value: number | null | undefined) => (value == null ? "" : String(value));
