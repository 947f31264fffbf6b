import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { ArchiveButton } from "@/components/registry/archive-button";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Facts, Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { Table } from "@/components/ui/table";
import { CallState } from "@/components/work/marks";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { findCustomer, listCustomerCalls } from "@/lib/db/customers";
import { withTenant } from "@/lib/db/tenant";
import { CustomerId } from "@/lib/ids";
import { whenInFull } from "@/lib/work/site-time";
import { archiveCustomer } from "../actions";

export const metadata: Metadata = { title: "Customer" };

export default async function CustomerPage(props: { params: Promise<{ company: string; customerId: string }> }) {
  const { company, customerId } = await props.params;
  const member = await requireMember(company);
  const mayChange = office.some((role) => member.roles.includes(role));
  const id = CustomerId.safeParse(customerId);
  if (!id.success) notFound();
  const { customer, calls } = await withTenant(member.companyId, async (tx) => ({
    customer: await findCustomer(tx, id.data),
    calls: await listCustomerCalls(tx, id.data),
  }));
  if (!customer) notFound();
  const here = `/${company}/customers/${customer.id}`;
  return (
    <>
      <PageHeader
        title={customer.name}
        lead={customer.archivedAt && <StateMark state="waiting" word="Archived" />}
        back={{ href: `/${company}/customers`, label: "Customers" }}
        actions={
          mayChange && (
            <>
              <ArchiveButton
                action={archiveCustomer}
                hidden={{ company, customerId: customer.id }}
                archived={customer.archivedAt !== null}
                name={customer.name}
              />
              <LinkButton href={`${here}/edit`}>Change</LinkButton>
              <LinkButton kind="action" href={`/${company}/calls/new?customer=${customer.id}`}>
                Take a call
              </LinkButton>
            </>
          )
        }
      />
      <div className="grid gap-8 desk:grid-cols-[minmax(0,1fr)_22rem]">
        <Section
          className="content-start"
          title="Sites and units"
          actions={mayChange && <LinkButton href={`${here}/sites/new`}>Add a site</LinkButton>}
        >
          {customer.sites.length === 0 && (
            <EmptyState title="No site yet">A unit stands at a site: add the place first.</EmptyState>
          )}
          <ul className="grid gap-4">
            {customer.sites.map((site) => (
              <li key={site.id} className="grid gap-1 border-b border-hairline pb-3">
                <div className="flex flex-wrap items-baseline gap-x-3">
                  <Link href={`${here}/sites/${site.id}`} className="font-semibold">
                    {site.name}
                  </Link>
                  <span className="text-ink-soft">{[site.street, site.city].filter(Boolean).join(", ")}</span>
                  {site.archivedAt && <StateMark state="waiting" word="Archived" />}
                </div>
                {site.equipment.length === 0 ? (
                  <p className="text-small text-ink-soft">No unit yet</p>
                ) : (
                  <ul className="grid">
                    {site.equipment.map((unit) => (
                      <li key={unit.id} className="flex flex-wrap items-baseline gap-x-3">
                        <Link href={`/${company}/equipment/${unit.id}`}>{unit.name}</Link>
                        <span className="text-small text-ink-soft">
                          {[unit.maker, unit.model, unit.serial && `serial ${unit.serial}`].filter(Boolean).join(" · ")}
                        </span>
                      </li>
                    ))}
                  </ul>
                )}
              </li>
            ))}
          </ul>
        </Section>
        <Section className="content-start" title="Contact">
          <Facts
            items={[
              {
                term: "Phone",
                value: customer.phone ? (
                  <a href={`tel:${customer.phone.replace(/[^\d+]/g, "")}`}>{customer.phone}</a>
                ) : (
                  "–"
                ),
              },
              {
                term: "E-mail",
                value: customer.email ? (
                  <a href={`mailto:${customer.email}`} className="break-all">
                    {customer.email}
                  </a>
                ) : (
                  "–"
                ),
              },
              { term: "Note", value: <span className="whitespace-pre-line">{customer.note || "–"}</span> },
            ]}
          />
        </Section>
      </div>
      <Section title="Latest calls" lead="Times are the site's.">
        <Table
          caption="Latest calls of this customer"
          captionHidden
          narrow="cards"
          rows={calls}
          rowKey={(call) => call.id}
          empty={<EmptyState title="No call yet" />}
          columns={[
            {
              key: "number",
              header: "Call",
              cell: (call) =>
                mayChange ? <Link href={`/${company}/calls/${call.id}`}>{`${call.number}`}</Link> : `${call.number}`,
            },
            {
              key: "taken",
              header: "Taken",
              className: "whitespace-nowrap",
              cell: (call) => whenInFull(call.takenAt, call.site.timeZone),
            },
            { key: "symptom", header: "What is wrong", cell: (call) => call.symptom },
            {
              key: "where",
              header: "Where",
              cell: (call) => [call.site.name, call.equipment?.name].filter(Boolean).join(", "),
            },
            { key: "state", header: "State", cell: (call) => <CallState state={call.state} /> },
          ]}
        />
      </Section>
    </>
  );
}
