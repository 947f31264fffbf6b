import type { Metadata } from "next";
import Link from "next/link";
import { InDateMark } from "@/components/registry/in-date-mark";
import { BookMass } from "@/components/registry/measures";
import type { FormPart } from "@/components/registry/register-form";
import { RegisterForm } from "@/components/registry/register-form";
import { cylinderContentsWord } from "@/components/registry/words";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Section } from "@/components/ui/section";
import { Table } from "@/components/ui/table";
import { requireMember } from "@/lib/auth/session";
import { listActiveMembers } from "@/lib/db/members";
import { type CylinderRow, readCylinders } from "@/lib/db/refrigerant/cylinders-in-books";
import { withTenant } from "@/lib/db/tenant";
import { listRefrigerants } from "@/lib/hvac";
import { unitSystemOf } from "@/lib/registry/company";
import { dayAt } from "@/lib/work/site-time";
import { LiveRefresh } from "../../_components/live-refresh";
import { RefrigerantPages } from "../_components/refrigerant-pages";
import { book, giveCylinder, promise } from "../actions";

export const metadata: Metadata = { title: "Cylinders in the books" };

/** Where each cylinder is and what the books have in it; promises, hand-overs, purchases and shipments. */
export default async function CylinderPlacesPage({ params }: { params: Promise<{ company: string }> }) {
  const { company } = await params;
  const member = await requireMember(company, "supervisor", "owner");
  const { cylinders, people, customers } = await withTenant(member.companyId, async (tx) => ({
    cylinders: await readCylinders(tx),
    people: await listActiveMembers(tx),
    customers: await tx.customer.findMany({
      where: { archivedAt: null },
      select: { id: true, name: true },
      orderBy: { name: "asc" },
      take: 2000,
    }),
  }));
  const system = unitSystemOf(member.ruleSet);
  const today = dayAt(new Date(), member.timeZone);
  const names = new Map(customers.map(({ id, name }) => [id, name]));
  const unit = system === "us" ? "lb" : "kg";
  const hidden = { company, massUnit: unit };
  const choices = cylinders.map(({ id, label }) => ({ value: id, label }));
  const forms = formParts({ unit, choices, people, customers });
  return (
    <>
      <LiveRefresh company={company} kinds={["cylinder", "job"]} />
      <PageHeader
        title="Cylinders in the books"
        lead="What has happened is booked even beyond a limit, and stands as an alarm under what does not balance. A promise beyond a limit is refused."
      />
      <RefrigerantPages company={company} here="cylinders" />
      <Table
        caption="Cylinders in use"
        captionHidden
        rows={cylinders}
        rowKey={({ id }) => id}
        narrow="cards"
        empty={<EmptyState title="No cylinders yet">Add them under Cylinders.</EmptyState>}
        columns={[
          {
            key: "label",
            header: "Cylinder",
            cell: ({ id, label }) => <Link href={`/${company}/refrigerant/postings?place=${id}`}>{label}</Link>,
          },
          { key: "place", header: "Place", cell: ({ holder }) => (holder ? `${holder}'s van` : "Shop") },
          { key: "contents", header: "Holds", cell: ({ contents }) => cylinderContentsWord[contents] },
          { key: "books", header: "By the books", cell: (row) => <Held row={row} system={system} /> },
          {
            key: "owner",
            header: "Whose",
            cell: ({ owners }) => owners.map((id) => names.get(id) ?? "a former customer").join(", ") || "ours",
          },
          {
            key: "promised",
            header: "Promised",
            cell: ({ reservedIn, reservedOut }) => (
              <span className="grid">
                {reservedIn > 0 && (
                  <span>
                    <BookMass grams={reservedIn} system={system} /> to come in
                  </span>
                )}
                {reservedOut > 0 && (
                  <span>
                    <BookMass grams={reservedOut} system={system} /> to go out
                  </span>
                )}
                {reservedIn + reservedOut === 0 && <span className="text-ink-soft">–</span>}
              </span>
            ),
          },
          {
            key: "requalify",
            header: "Requalify by",
            cell: ({ requalifyBy }) => <InDateMark lastDay={requalifyBy} today={today} none="Stamp not read" />,
          },
        ]}
      />
      {cylinders.length > 0 && (
        <>
          <Section
            title="Promise room or stock"
            lead="Refused where it would pass the fill limit together with what is in it and promised already, mix refrigerants, or give one owner's refrigerant to another."
          >
            <RegisterForm
              action={promise}
              hidden={hidden}
              parts={forms.promise}
              values={{ untilDay: today }}
              submit="Promise it"
              saved="Promised"
              again
            />
          </Section>
          <Section
            title="Book what happened"
            lead="A purchase, a shipment to a reclaimer with its number, a decanting. A mistake is put right by booking it the other way."
          >
            <RegisterForm
              action={book}
              hidden={hidden}
              parts={forms.book}
              values={{ on: today }}
              submit="Book it"
              saved="Booked"
              again
            />
          </Section>
          <Section title="Hand a cylinder over">
            <RegisterForm
              action={giveCylinder}
              hidden={{ company }}
              parts={forms.give}
              values={{}}
              submit="Hand over"
              saved="Handed over"
              again
            />
          </Section>
        </>
      )}
    </>
  );
}

function Held({ row, system }: { row: CylinderRow; system: "us" | "si" }) {
  const held = Object.entries(row.grams).filter(([, grams]) => grams !== 0);
  if (held.length === 0) return <span className="text-ink-soft">empty</span>;
  return (
    <span className="grid">
      {held.map(([refrigerant, grams]) => (
        <span key={refrigerant}>
          <BookMass grams={grams} system={system} /> {refrigerant}
        </span>
      ))}
    </span>
  );
}

function formParts(of: {
  unit: string;
  choices: readonly { value: string; label: string }[];
  people: readonly { personId: string; name: string }[];
  customers: readonly { id: string; name: string }[];
}): Record<"promise" | "book" | "give", readonly FormPart[]> {
  const cylinder = { name: "cylinderId", label: "Cylinder", kind: "select", choices: of.choices } as const;
  const refrigerant = {
    name: "refrigerant",
    label: "Refrigerant",
    kind: "text",
    suggestions: [...listRefrigerants().map(({ name }) => name), "mixed"],
  } as const;
  const mass = { name: "mass", label: "Mass", kind: "number", unit: of.unit } as const;
  return {
    promise: [
      {
        fields: [
          cylinder,
          {
            name: "direction",
            label: "What for",
            kind: "select",
            choices: [
              { value: "in", label: "Room to recover into" },
              { value: "out", label: "Stock to charge from" },
            ],
          },
          refrigerant,
          mass,
          {
            name: "customerId",
            label: "For which customer",
            kind: "select",
            emptyChoice: "Nobody yet, new refrigerant",
            choices: of.customers.map(({ id, name }) => ({ value: id, label: name })),
          },
          { name: "untilDay", label: "Until", kind: "date" },
          { name: "purpose", label: "Note", kind: "text", optional: true },
        ],
      },
    ],
    book: [
      {
        fields: [
          {
            name: "kind",
            label: "What happened",
            kind: "select",
            choices: [
              { value: "purchase", label: "Bought" },
              { value: "return", label: "Returned to the supplier" },
              { value: "shipment", label: "Shipped to a reclaimer" },
              { value: "reclaimed", label: "Came back reclaimed" },
              { value: "destruction", label: "Sent to destruction" },
              { value: "decant", label: "Decanted into another cylinder" },
              { value: "settled", label: "A cylinder nobody named was this one" },
            ],
          },
          cylinder,
          {
            name: "toCylinderId",
            label: "Into which cylinder",
            kind: "select",
            emptyChoice: "Choose",
            choices: of.choices,
            when: { field: "kind", is: ["decant"] },
          },
          refrigerant,
          mass,
          { name: "on", label: "Day", kind: "date" },
          { name: "party", label: "Supplier or reclaimer", kind: "text", optional: true },
          { name: "number", label: "Invoice or manifest", kind: "text", optional: true },
          { name: "note", label: "Note", kind: "area", optional: true },
        ],
      },
    ],
    give: [
      {
        fields: [
          cylinder,
          {
            name: "toPerson",
            label: "To",
            kind: "select",
            emptyChoice: "The shop",
            choices: of.people.map(({ personId, name }) => ({ value: personId, label: `${name}'s van` })),
          },
        ],
      },
    ],
  };
}
