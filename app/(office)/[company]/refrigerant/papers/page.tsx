import type { Metadata } from "next";
import { BookMass } from "@/components/registry/measures";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { SubmitButton } from "@/components/ui/submit-button";
import { Table } from "@/components/ui/table";
import { FilterLinks } from "@/components/work/filter-links";
import { requireMember } from "@/lib/auth/session";
import { listPapers } from "@/lib/db/refrigerant/papers";
import { withTenant } from "@/lib/db/tenant";
import { unitSystemOf } from "@/lib/registry/company";
import { paperWords, readPaperQuery } from "@/lib/work/paper-query";
import { dateInFull, dayAt } from "@/lib/work/site-time";
import { RefrigerantPages } from "../_components/refrigerant-pages";

export const metadata: Metadata = { title: "Papers of refrigerant" };
const PAGE = 100;
type Query = Record<string, string | string[] | undefined>;

/** Purchases, shipments to reclaimers, destruction and appliances given up, each with its number and who wrote it down. */
export default async function PapersPage(props: {
  params: Promise<{ company: string }>;
  searchParams: Promise<Query>;
}) {
  const { company } = await props.params;
  const member = await requireMember(company, "supervisor", "owner");
  const query = readPaperQuery(await props.searchParams, dayAt(new Date(), member.timeZone));
  const rows = await withTenant(member.companyId, (tx) => listPapers(tx, query, { take: PAGE + 1, skip: query.skip }));
  const system = unitSystemOf(member.ruleSet);
  const path = `/${company}/refrigerant/papers`;
  const address = (more: Record<string, string>) => {
    const { kind, from, to } = query;
    return `${path}?${new URLSearchParams({ ...(kind && { kind }), from, to, ...more })}`;
  };
  return (
    <>
      <PageHeader
        title="Papers of refrigerant"
        lead="What was bought, shipped to a reclaimer, sent to destruction or given up with its appliance. An appliance of 5 to 50 lb given up: kept three years with its place, day, refrigerant and mass recovered (40 CFR 82.155, 82.156; from memory)."
        actions={<LinkButton href={address({}).replace(path, `${path}/export`)}>As CSV</LinkButton>}
      />
      <RefrigerantPages company={company} here="papers" />
      <FilterLinks
        label="Which papers"
        chosen={query.kind ?? "all"}
        filters={[
          { value: "all", label: "All", href: `${path}?${new URLSearchParams({ from: query.from, to: query.to })}` },
          ...Object.entries(paperWords).map(([value, label]) => ({ value, label, href: address({ kind: value }) })),
        ]}
      />
      <form action={path} className="no-print flex flex-wrap items-end gap-3">
        {query.kind && <input type="hidden" name="kind" value={query.kind} />}
        <label className="grid gap-1">
          <span className="text-small text-ink-soft">From</span>
          <input type="date" name="from" defaultValue={query.from} className="control" />
        </label>
        <label className="grid gap-1">
          <span className="text-small text-ink-soft">To</span>
          <input type="date" name="to" defaultValue={query.to} className="control" />
        </label>
        <SubmitButton kind="quiet">Show</SubmitButton>
      </form>
      <Table
        caption={rows.length === 1 ? "One paper" : `${Math.min(rows.length, PAGE)} papers, the newest first`}
        rows={rows.slice(0, PAGE)}
        rowKey={({ id }) => id}
        narrow="cards"
        empty={
          <EmptyState title="No papers in this time">
            Purchases and shipments are booked under Cylinders; an appliance is given up on its circuit's page.
          </EmptyState>
        }
        columns={[
          { key: "day", header: "Day", cell: ({ on_day }) => dateInFull(on_day) },
          { key: "kind", header: "What", cell: ({ kind }) => paperWords[kind] },
          {
            key: "of",
            header: "Of what",
            cell: ({ cylinder, circuit_id, appliance, customer, site }) =>
              circuit_id ? (
                <span className="grid">
                  <Link href={`/${company}/refrigerant/circuits/${circuit_id}`}>{appliance}</Link>
                  <span className="text-small text-ink-soft">
                    {customer}, {site}
                  </span>
                </span>
              ) : (
                `Cylinder ${cylinder ?? "not known"}`
              ),
          },
          { key: "refrigerant", header: "Refrigerant", cell: ({ refrigerant }) => refrigerant ?? "–" },
          {
            key: "grams",
            header: "Mass",
            numeric: true,
            cell: ({ grams }) =>
              grams === null ? (
                <span className="text-ink-soft">none on record</span>
              ) : (
                <BookMass grams={grams} system={system} />
              ),
          },
          {
            key: "party",
            header: "With whom",
            cell: ({ party, number }) => [party, number].filter(Boolean).join(", ") || "not said",
          },
          {
            key: "by",
            header: "Written by",
            cell: ({ person, note }) => (
              <span className="grid">
                {person}
                {note && <span className="text-small text-ink-soft">{note}</span>}
              </span>
            ),
          },
        ]}
      />
      {(query.skip > 0 || rows.length > PAGE) && (
        <nav aria-label="Pages" className="no-print flex gap-2">
          {query.skip > 0 && (
            <LinkButton href={address({ skip: String(Math.max(0, query.skip - PAGE)) })}>Newer</LinkButton>
          )}
          {rows.length > PAGE && <LinkButton href={address({ skip: String(query.skip + PAGE) })}>Older</LinkButton>}
        </nav>
      )}
    </>
  );
}
