import { BookMass } from "@/components/registry/measures";
import { StateMark } from "@/components/ui/state-mark";
import { SubmitButton } from "@/components/ui/submit-button";
import { Table } from "@/components/ui/table";
import type { ReservationRow } from "@/lib/db/refrigerant/reservations";
import type { UnitSystem } from "@/lib/registry/company";
import { dateInFull } from "@/lib/work/site-time";
import { endPromise } from "../actions";

/** Room and stock promised, the first to end first; each may be ended. */
export function Promises(props: {
  company: string;
  promises: readonly ReservationRow[];
  system: UnitSystem;
  today: string;
}) {
  const { company, promises, system, today } = props;
  return (
    <Table
      caption="Promises, the first to end first"
      captionHidden
      rows={promises}
      rowKey={({ id }) => id}
      narrow="cards"
      columns={[
        { key: "label", header: "Cylinder", cell: ({ label }) => label },
        {
          key: "what",
          header: "What",
          cell: ({ direction, grams, refrigerant }) => (
            <span>
              <BookMass grams={grams} system={system} /> {refrigerant},{" "}
              {direction === "in" ? "room for it" : "to take out"}
            </span>
          ),
        },
        {
          key: "for",
          header: "For",
          cell: ({ customer, purpose }) => [customer, purpose].filter(Boolean).join(". ") || "nobody yet",
        },
        {
          key: "until",
          header: "Until",
          cell: ({ untilDay }) => (
            <StateMark
              state={untilDay < today ? "waiting" : "working"}
              word={untilDay < today ? `over since ${dateInFull(untilDay)}` : dateInFull(untilDay)}
            />
          ),
        },
        { key: "by", header: "By", cell: ({ person }) => person },
        {
          key: "end",
          header: "End",
          cell: ({ id, label }) => (
            <form action={endPromise}>
              <input type="hidden" name="company" value={company} />
              <input type="hidden" name="promiseId" value={id} />
              <SubmitButton kind="quiet" aria-label={`End the promise of cylinder ${label}`}>
                End it
              </SubmitButton>
            </form>
          ),
        },
      ]}
    />
  );
}
