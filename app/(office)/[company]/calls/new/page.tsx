import type { Metadata } from "next";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Section } from "@/components/ui/section";
import { requireMember } from "@/lib/auth/session";
import { findIntake, listLastCalls } from "@/lib/db/intake";
import { withTenant } from "@/lib/db/tenant";
import { CallForm } from "./_components/call-form";
import { CustomerFinder } from "./_components/customer-finder";
import { UnitHistory } from "./_components/unit-history";

export const metadata: Metadata = { title: "Take a call" };

type Query = { customer?: string | string[]; site?: string | string[]; unit?: string | string[] };

/** One narrow form in the order people speak: who, where, which unit, what is wrong, how urgent, when. */
export default async function NewCallPage(props: {
  params: Promise<{ company: string }>;
  searchParams: Promise<Query>;
}) {
  const { company } = await props.params;
  const member = await requireMember(company, "dispatcher", "supervisor", "owner");
  const query = await props.searchParams;
  const { intake, history } = await withTenant(member.companyId, async (tx) => {
    const found = await findIntake(tx, {
      customerId: one(query.customer),
      siteId: one(query.site),
      equipmentId: one(query.unit),
    });
    return { intake: found, history: found?.unit ? await listLastCalls(tx, found.unit.id) : [] };
  });
  return (
    <>
      <PageHeader title="Take a call" back={{ href: `/${company}/calls`, label: "Calls" }} />
      <div className="grid gap-8 wide:grid-cols-[minmax(0,34rem)_minmax(0,1fr)]">
        <div className="grid content-start gap-6">
          <Section title="Who calls">
            {intake ? (
              <p className="flex flex-wrap items-baseline justify-between gap-3">
                <span>
                  <span className="font-semibold">{intake.customer.name}</span>{" "}
                  <span className="text-ink-soft">{intake.customer.phone}</span>
                </span>
                <Link href={`/${company}/calls/new`}>Somebody else</Link>
              </p>
            ) : (
              <>
                <CustomerFinder company={company} />
                <LinkButton href={`/${company}/customers/new`}>Add a new customer</LinkButton>
              </>
            )}
          </Section>
          {intake && intake.sites.length === 0 && (
            <EmptyState
              title="This customer has no site yet"
              action={
                <LinkButton kind="action" href={`/${company}/customers/${intake.customer.id}`}>
                  Add a site
                </LinkButton>
              }
            >
              <p>A visit needs an address. Add the site, then take the call.</p>
            </EmptyState>
          )}
          {intake && intake.sites.length > 0 && (
            <CallForm
              key={`${intake.customer.id} ${intake.site?.id} ${intake.unit?.id}`}
              company={company}
              customerId={intake.customer.id}
              sites={intake.sites}
              site={intake.site}
              unit={intake.unit}
              technicians={intake.technicians}
            />
          )}
        </div>
        {intake?.unit && <UnitHistory company={company} unit={intake.unit} history={history} />}
      </div>
    </>
  );
}

const one = (value: string | string[] | undefined) => (typeof value === "string" ? value : null);
