import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { ArchiveButton } from "@/components/registry/archive-button";
import { RefrigerantOf } from "@/components/registry/refrigerant-of";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Facts, Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { Table } from "@/components/ui/table";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { findSite } from "@/lib/db/sites";
import { withTenant } from "@/lib/db/tenant";
import { SiteId } from "@/lib/ids";
import { whenAt } from "@/lib/work/site-time";
import { archiveSite } from "../../../actions";

export const metadata: Metadata = { title: "Site" };

export default async function SitePage(props: {
  params: Promise<{ company: string; customerId: string; siteId: string }>;
}) {
  const { company, customerId, siteId } = await props.params;
  const member = await requireMember(company);
  const mayChange = office.some((role) => member.roles.includes(role));
  const id = SiteId.safeParse(siteId);
  if (!id.success) notFound();
  const site = await withTenant(member.companyId, (tx) => findSite(tx, id.data));
  if (site?.customer.id !== customerId) notFound();
  const here = `/${company}/customers/${site.customer.id}/sites/${site.id}`;
  const addUnit = `/${company}/equipment/new?site=${site.id}`;
  return (
    <>
      <PageHeader
        title={site.name}
        lead={site.archivedAt && <StateMark state="waiting" word="Archived" />}
        back={{ href: `/${company}/customers/${site.customer.id}`, label: site.customer.name }}
        actions={
          mayChange && (
            <>
              <ArchiveButton
                action={archiveSite}
                hidden={{ company, siteId: site.id }}
                archived={site.archivedAt !== null}
                name={site.name}
              />
              <LinkButton href={`${here}/edit`}>Change</LinkButton>
              <LinkButton href={addUnit}>Add a unit</LinkButton>
              <LinkButton kind="action" href={`/${company}/calls/new?customer=${site.customer.id}&site=${site.id}`}>
                Take a call
              </LinkButton>
            </>
          )
        }
      />
      <div className="grid gap-8 desk:grid-cols-[minmax(0,1fr)_22rem]">
        <Section className="content-start" title="Units">
          <Table
            caption="Units at this site"
            captionHidden
            narrow="cards"
            rows={site.equipment}
            rowKey={(unit) => unit.id}
            empty={<EmptyState title="No unit yet">Add what stands here from its nameplate.</EmptyState>}
            columns={[
              {
                key: "name",
                header: "Unit",
                cell: (unit) => (
                  <>
                    <Link href={`/${company}/equipment/${unit.id}`}>{unit.name}</Link>
                    {unit.archivedAt && <StateMark state="waiting" word="Archived" className="ml-2" />}
                  </>
                ),
              },
              {
                key: "model",
                header: "Maker and model",
                cell: (unit) => [unit.maker, unit.model].filter(Boolean).join(" ") || "–",
              },
              { key: "serial", header: "Serial", className: "font-mono", cell: (unit) => unit.serial || "–" },
              { key: "place", header: "Place", cell: (unit) => unit.place || "–" },
              {
                key: "refrigerant",
                header: "Refrigerant",
                cell: (unit) => (
                  <span className="grid">
                    {unit.circuits.map((circuit) => (
                      <RefrigerantOf key={circuit.id} circuit={circuit} />
                    ))}
                    {unit.circuits.length === 0 && "no circuit yet"}
                  </span>
                ),
              },
            ]}
          />
        </Section>
        <Section className="content-start" title="Where it is">
          <Facts
            items={[
              {
                term: "Address",
                value: (
                  <address className="not-italic">
                    {[site.street, [site.postalCode, site.city].filter(Boolean).join(" "), site.region, site.country]
                      .filter(Boolean)
                      .map((line) => (
                        <span key={line} className="block">
                          {line}
                        </span>
                      ))}
                  </address>
                ),
              },
              {
                term: "Its time now",
                value: (
                  <>
                    {whenAt(new Date(), site.timeZone)}{" "}
                    <span className="text-small text-ink-soft">{site.timeZone}</span>
                  </>
                ),
              },
              {
                term: "Position",
                value: site.latitude === null ? "not known" : `${site.latitude}°, ${site.longitude}°`,
              },
              { term: "How to get in", value: <span className="whitespace-pre-line">{site.accessNote || "–"}</span> },
            ]}
          />
        </Section>
      </div>
    </>
  );
}
