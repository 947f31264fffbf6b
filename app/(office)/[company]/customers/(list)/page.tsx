import type { Metadata } from "next";
import { LiveSearch } from "@/components/registry/live-search";
import { Pager } from "@/components/registry/pager";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Table } from "@/components/ui/table";
import { FilterLinks } from "@/components/work/filter-links";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { CUSTOMERS_A_PAGE, listCustomers } from "@/lib/db/customers";
import { searchRegister } from "@/lib/db/search";
import { withTenant } from "@/lib/db/tenant";
import { type PageQuery, readPageQuery } from "@/lib/registry/page-query";
import { FoundList } from "../_components/found-list";

export const metadata: Metadata = { title: "Customers" };

export default async function CustomersPage(props: {
  params: Promise<{ company: string }>;
  searchParams: Promise<PageQuery>;
}) {
  const { company } = await props.params;
  const member = await requireMember(company);
  const mayChange = office.some((role) => member.roles.includes(role));
  const { query, page, archived } = readPageQuery(await props.searchParams);
  const base = `/${company}/customers`;
  return (
    <>
      <PageHeader
        title="Customers"
        actions={
          mayChange && (
            <>
              <LinkButton href={`/${company}/import`}>Import a file</LinkButton>
              <LinkButton kind="action" href={`${base}/new`}>
                Add a customer
              </LinkButton>
            </>
          )
        }
      />
      <LiveSearch label="Name, phone, address, unit or serial" query={query} />
      {query ? (
        <FoundList
          company={company}
          query={query}
          found={
            await withTenant(member.companyId, (tx) =>
              searchRegister(tx, query, { kinds: ["customer", "site", "equipment"], limit: 50 }),
            )
          }
        />
      ) : (
        <>
          <FilterLinks
            label="Which customers"
            chosen={archived ? "archived" : "in-use"}
            filters={[
              { value: "in-use", label: "In use", href: base },
              { value: "archived", label: "Archived", href: `${base}?show=archived` },
            ]}
          />
          <CustomerTable
            base={base}
            archived={archived}
            page={page}
            customers={await withTenant(member.companyId, (tx) => listCustomers(tx, { archived, page }))}
            mayChange={mayChange}
          />
        </>
      )}
    </>
  );
}

function CustomerTable(props: {
  base: string;
  archived: boolean;
  page: number;
  customers: Awaited<ReturnType<typeof listCustomers>>;
  mayChange: boolean;
}) {
  const { base, archived, page, customers } = props;
  return (
    <>
      <Table
        caption={archived ? "Archived customers" : "Customers by name"}
        captionHidden
        narrow="cards"
        rows={customers.slice(0, CUSTOMERS_A_PAGE)}
        rowKey={({ id }) => id}
        columns={[
          { key: "name", header: "Name", cell: ({ id, name }) => <Link href={`${base}/${id}`}>{name}</Link> },
          { key: "phone", header: "Phone", cell: ({ phone }) => phone || "–" },
          { key: "email", header: "E-mail", cell: ({ email }) => <span className="break-all">{email || "–"}</span> },
          { key: "place", header: "First site", cell: ({ sites: [site] }) => placeWords(site) },
          { key: "sites", header: "Sites", numeric: true, cell: ({ _count }) => _count.sites },
        ]}
        empty={
          archived ? (
            <EmptyState title="Nothing is archived" />
          ) : (
            <EmptyState
              title="No customers yet"
              action={
                props.mayChange && (
                  <div className="flex gap-2">
                    <LinkButton kind="action" href={`${base}/new`}>
                      Add the first one
                    </LinkButton>
                  </div>
                )
              }
            >
              Add them one by one, or import a file with customers, sites and units.
            </EmptyState>
          )
        }
      />
      <Pager
        page={page}
        hasNext={customers.length > CUSTOMERS_A_PAGE}
        hrefOf={(other) => `${base}?page=${other}${archived ? "&show=archived" : ""}`}
      />
    </>
  );
}

function placeWords(site: { street: string; city: string } | undefined): string {
  return [site?.street, site?.city].filter(Boolean).join(", ") || "–";
}
