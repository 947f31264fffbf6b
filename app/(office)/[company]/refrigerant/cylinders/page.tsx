import type { Metadata } from "next";
import { InDateMark } from "@/components/registry/in-date-mark";
import { BookMass } from "@/components/registry/measures";
import { RegisterForm } from "@/components/registry/register-form";
import { cylinderContentsWord } from "@/components/registry/words";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Section } from "@/components/ui/section";
import { Table } from "@/components/ui/table";
import { FilterLinks } from "@/components/work/filter-links";
import { requireMember } from "@/lib/auth/session";
import { listActiveMembers } from "@/lib/db/members";
import { type CylinderRow, readCylinders } from "@/lib/db/refrigerant/cylinders-in-books";
import { listReservations } from "@/lib/db/refrigerant/reservations";
import { withTenant } from "@/lib/db/tenant";
import { unitSystemOf } from "@/lib/registry/company";
import { dayAt } from "@/lib/work/site-time";
import { LiveRefresh } from "../../_components/live-refresh";
import { RefrigerantPages } from "../_components/refrigerant-pages";
import { formParts } from "./_components/cylinder-forms";
import { Promises } from "./_components/promises";
import { book, giveCylinder, promise } from "./actions";

export const metadata: Metadata = { title: "Cylinders in the books" };

const acts = ["promise", "book", "give"] as const;
type Act = (typeof acts)[number];
const actWords = {
  promise: {
    title: "Promise room or stock",
    lead: "Refused where it would pass the fill limit together with what is in it and promised already, mix refrigerants, or give one owner's refrigerant to another.",
    submit: "Promise it",
    saved: "Promised",
  },
  book: {
    title: "Book what happened",
    lead: "A purchase, a shipment to a reclaimer with its number, a decanting. A mistake is put right by booking it the other way.",
    submit: "Book it",
    saved: "Booked",
  },
  give: {
    title: "Hand a cylinder over",
    lead: "From the shop to somebody's van, or back.",
    submit: "Hand over",
    saved: "Handed over",
  },
} as const;
const actions = { promise, book, give: giveCylinder };

/** Where each cylinder is and what the books have in it; promises, hand-overs, purchases and shipments, one form at a time. */
export default async function CylinderPlacesPage(props: {
  params: Promise<{ company: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { company } = await props.params;
  const asked = (await props.searchParams).do;
  const act: Act | null = acts.find((each) => each === asked) ?? null;
  const member = await requireMember(company, "supervisor", "owner");
  const { cylinders, people, promises, owners, customers } = await withTenant(member.companyId, async (tx) => {
    const rows = await readCylinders(tx);
    return {
      cylinders: rows,
      people: act === "give" ? await listActiveMembers(tx) : [],
      promises: await listReservations(tx),
      owners: await tx.customer.findMany({
        where: { archivedAt: null, id: { in: rows.flatMap((row) => row.owners) } },
        select: { id: true, name: true },
      }),
      customers:
        act === "promise"
          ? await tx.customer.findMany({
              where: { archivedAt: null },
              select: { id: true, name: true },
              orderBy: { name: "asc" },
              take: 2000,
            })
          : [],
    };
  });
  const system = unitSystemOf(member.ruleSet);
  const today = dayAt(new Date(), member.timeZone);
  const names = new Map(owners.map(({ id, name }) => [id, name]));
  const unit = system === "us" ? "lb" : "kg";
  const choices = cylinders.map(({ id, label }) => ({ value: id, label }));
  const forms = formParts({ unit, choices, people, customers });
  const path = `/${company}/refrigerant/cylinders`;
  return (
    <>
      <LiveRefresh company={company} kinds={["cylinder", "job"]} />
      <PageHeader
        title="Cylinders in the books"
        lead="What has happened is booked even beyond a limit, and stands as an alarm under what does not balance. A promise beyond a limit is refused."
      />
      <RefrigerantPages company={company} here="cylinders" />
      {cylinders.length > 0 && (
        <FilterLinks
          label="What to do with them"
          chosen={act ?? "none"}
          filters={[
            { value: "none", label: "Where they are", href: path },
            ...acts.map((value) => ({ value, label: actWords[value].title, href: `${path}?do=${value}` })),
          ]}
        />
      )}
      {act && cylinders.length > 0 && (
        <Section title={actWords[act].title} lead={actWords[act].lead}>
          <RegisterForm
            key={act}
            action={actions[act]}
            hidden={act === "give" ? { company } : { company, massUnit: unit }}
            parts={forms[act]}
            values={{ promise: { untilDay: today }, book: { kind: "purchase", on: today }, give: {} }[act]}
            submit={actWords[act].submit}
            saved={actWords[act].saved}
            again
          />
        </Section>
      )}
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
      {promises.length > 0 && (
        <Section title="What is promised">
          <Promises company={company} promises={promises} system={system} today={today} />
        </Section>
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
