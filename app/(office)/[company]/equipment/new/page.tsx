import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { RegisterForm } from "@/components/registry/register-form";
import { PageHeader } from "@/components/ui/page-header";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { findSite } from "@/lib/db/sites";
import { withTenant } from "@/lib/db/tenant";
import { SiteId } from "@/lib/ids";
import { unitParts } from "../_components/unit-parts";
import { addUnit } from "../actions";

export const metadata: Metadata = { title: "Add a unit" };

export default async function NewUnitPage(props: {
  params: Promise<{ company: string }>;
  searchParams: Promise<{ site?: string | string[] }>;
}) {
  const { company } = await props.params;
  const { companyId } = await requireMember(company, ...office);
  const id = SiteId.safeParse((await props.searchParams).site);
  if (!id.success) notFound();
  const site = await withTenant(companyId, (tx) => findSite(tx, id.data));
  if (!site) notFound();
  const back = `/${company}/customers/${site.customer.id}/sites/${site.id}`;
  return (
    <>
      <PageHeader
        title="Add a unit"
        lead={`At ${site.name}, ${site.customer.name}. Its circuit comes next.`}
        back={{ href: back, label: site.name }}
      />
      <RegisterForm
        action={addUnit}
        hidden={{ company, siteId: site.id }}
        parts={unitParts}
        values={{ applianceKind: "comfort_cooling" }}
        submit="Add the unit"
        cancel={back}
      />
    </>
  );
}
