import type { Metadata } from "next";
import { LiveSearch } from "@/components/registry/live-search";
import { Pager } from "@/components/registry/pager";
import { RefrigerantOf } from "@/components/registry/refrigerant-of";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Table } from "@/components/ui/table";
import { FilterLinks } from "@/components/work/filter-links";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { listEquipment, UNITS_A_PAGE } from "@/lib/db/equipment";
import { searchRegister } from "@/lib/db/search";
import { withTenant } from "@/lib/db/tenant";
import { type PageQuery, readPageQuery } from "@/lib/registry/page-query";
import { FoundList } from "../../customers/_components/found-list";

export const metadata: Metadata = { title: "Units" };

export default async function UnitsPage(props: {
  params: Promise<{ company: string }>;
  searchParams: Promise<PageQuery>;
}) {
  const { company } = await props.params;
  const member = await requireMember(company);
  const mayChange = office.some((role) => member.roles.includes(role));
  const { query, page, archived } = readPageQuery(await props.searchParams);
  const base = `/${company}/equipment`;
  return (
    <>
      <PageHeader
        title="Units"
        lead="A unit is added at its site."
        actions={mayChange && <LinkButton href={`/${company}/import`}>Import a file</LinkButton>}
      />
      <LiveSearch label="Name, maker, model, serial or customer" query={query} />
      {query ? (
        <FoundList
          company={company}
          query={query}
          found={
            await withTenant(member.companyId, (tx) => searchRegister(tx, query, { kinds: ["equipment"], limit: 50 }))
          }
        />
      ) : (
        <>
          <FilterLinks
            label="Which units"
            chosen={archived ? "archived" : "in-use"}
            filters={[
              { value: "in-use", label: "In use", href: base },
              { value: "archived", label: "Archived", href: `${base}?show=archived` },
            ]}
          />
          <UnitTable
            company={company}
            archived={archived}
            page={page}
            units={await withTenant(member.companyId, (tx) => listEquipment(tx, { archived, page }))}
          />
        </>
      )}
    </>
  );
}

function UnitTable(props: {
  company: string;
  archived: boolean;
  page: number;
  units: Awaited<ReturnType<typeof listEquipment>>;
}) {
  const { company, archived, page, units } = props;
  return (
    <>
      <Table
        caption={archived ? "Archived units" : "Units by customer and site"}
        captionHidden
        narrow="cards"
        rows={units.slice(0, UNITS_A_PAGE)}
        rowKey={({ id }) => id}
        empty={
          <EmptyState title={archived ? "Nothing is archived" : "No units yet"}>
            {!archived && "Open a customer's site to add what stands there, or import a file."}
          </EmptyState>
        }
        columns={[
          {
            key: "name",
            header: "Unit",
            cell: ({ id, name }) => <Link href={`/${company}/equipment/${id}`}>{name}</Link>,
          },
          {
            key: "model",
            header: "Maker and model",
            cell: ({ maker, model }) => [maker, model].filter(Boolean).join(" ") || "–",
          },
          {
            key: "serial",
            header: "Serial",
            className: "font-mono",
            cell: ({ serial }) => <span className="break-all">{serial || "–"}</span>,
          },
          {
            key: "where",
            header: "Where",
            cell: ({ site }) => (
              <>
                <Link href={`/${company}/customers/${site.customer.id}`}>{site.customer.name}</Link>
                <span className="text-ink-soft">
                  , {site.name} {site.city}
                </span>
              </>
            ),
          },
          {
            key: "refrigerant",
            header: "Refrigerant",
            cell: ({ circuits }) => (
              <span className="grid">
                {circuits.map((circuit) => (
                  <RefrigerantOf key={circuit.id} circuit={circuit} />
                ))}
                {circuits.length === 0 && "no circuit yet"}
              </span>
            ),
          },
        ]}
      />
      <Pager
        page={page}
        hasNext={units.length > UNITS_A_PAGE}
        hrefOf={(other) => `/${company}/equipment?page=${other}${archived ? "&show=archived" : ""}`}
      />
    </>
  );
}
