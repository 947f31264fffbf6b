import type { Metadata } from "next";
import { InDateMark } from "@/components/registry/in-date-mark";
import { ScaleMass } from "@/components/registry/measures";
import { cylinderContentsWord } from "@/components/registry/words";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Table } from "@/components/ui/table";
import { FilterLinks } from "@/components/work/filter-links";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { listCylinders } from "@/lib/db/cylinders";
import { withTenant } from "@/lib/db/tenant";
import { CYLINDER_SOURCES } from "@/lib/hvac/rulebook";
import { unitSystemOf } from "@/lib/registry/company";
import { dayAt } from "@/lib/work/site-time";
import { FillLimit } from "../_components/fill-limit";

export const metadata: Metadata = { title: "Cylinders" };

export default async function CylindersPage(props: {
  params: Promise<{ company: string }>;
  searchParams: Promise<{ show?: string | string[] }>;
}) {
  const { company } = await props.params;
  const member = await requireMember(company);
  const mayChange = office.some((role) => member.roles.includes(role));
  const retired = (await props.searchParams).show === "retired";
  const cylinders = await withTenant(member.companyId, (tx) => listCylinders(tx, { retired }));
  const today = dayAt(new Date(), member.timeZone);
  const system = unitSystemOf(member.ruleSet);
  const base = `/${company}/cylinders`;
  return (
    <>
      <PageHeader
        title="Cylinders"
        lead={`Fill limits by liquid density at 77 °F, never liquid-full at 130 °F (${CYLINDER_SOURCES.fill.source}). The lower of limit and label governs.`}
        actions={
          mayChange && (
            <LinkButton kind="action" href={`${base}/new`}>
              Add a cylinder
            </LinkButton>
          )
        }
      />
      <FilterLinks
        label="Which cylinders"
        chosen={retired ? "retired" : "in-use"}
        filters={[
          { value: "in-use", label: "In use", href: base },
          { value: "retired", label: "Retired", href: `${base}?show=retired` },
        ]}
      />
      <Table
        caption={retired ? "Retired cylinders" : "Cylinders in use"}
        captionHidden
        narrow="cards"
        rows={cylinders}
        rowKey={({ id }) => id}
        empty={
          <EmptyState title={retired ? "Nothing is retired" : "No cylinders yet"}>
            {!retired && "Refrigerant is accounted for cylinder by cylinder."}
          </EmptyState>
        }
        columns={[
          {
            key: "label",
            header: "Cylinder",
            cell: ({ id, label }) => (mayChange ? <Link href={`${base}/${id}`}>{label}</Link> : label),
          },
          {
            key: "contents",
            header: "Holds",
            cell: ({ contents, refrigerant }) =>
              [refrigerant, cylinderContentsWord[contents].toLowerCase()].filter(Boolean).join(", "),
          },
          {
            key: "mass",
            header: "Net mass",
            numeric: true,
            cell: ({ contentsKg }) => <ScaleMass value={contentsKg} system={system} />,
          },
          { key: "limit", header: "Fill limit", cell: (cylinder) => <FillLimit cylinder={cylinder} system={system} /> },
          {
            key: "requalify",
            header: "Requalify by",
            cell: ({ requalifyBy }) => <InDateMark lastDay={requalifyBy} today={today} none="Stamp not read" />,
          },
          { key: "holder", header: "Held by", cell: ({ holder }) => holder?.name ?? "–" },
        ]}
      />
    </>
  );
}
