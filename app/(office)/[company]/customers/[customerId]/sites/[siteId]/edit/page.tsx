import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { RegisterForm } from "@/components/registry/register-form";
import { PageHeader } from "@/components/ui/page-header";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { findSite } from "@/lib/db/sites";
import { withTenant } from "@/lib/db/tenant";
import { SiteId } from "@/lib/ids";
import { siteParts } from "../../../../_components/customer-parts";
import { changeSite } from "../../../../actions";

export const metadata: Metadata = { title: "Change a site" };

export default async function EditSitePage(props: {
  params: Promise<{ company: string; customerId: string; siteId: string }>;
}) {
  const { company, customerId, siteId } = await props.params;
  const { companyId } = await requireMember(company, ...office);
  const id = SiteId.safeParse(siteId);
  if (!id.success) notFound();
  const site = await withTenant(companyId, (tx) => findSite(tx, id.data));
  if (site?.customer.id !== customerId) notFound();
  const back = `/${company}/customers/${site.customer.id}/sites/${site.id}`;
  const { name, street, city, postalCode, region, country, timeZone, accessNote } = site;
  const position = { latitude: site.latitude?.toString() ?? "", longitude: site.longitude?.toString() ?? "" };
  return (
    <>
      <PageHeader title={`Change ${name}`} back={{ href: back, label: name }} />
      <RegisterForm
        action={changeSite}
        hidden={{ company, siteId: site.id }}
        parts={siteParts(Intl.supportedValuesOf("timeZone"))}
        values={{ name, street, city, postalCode, region, country, timeZone, accessNote, ...position }}
        submit="Save"
        cancel={back}
      />
    </>
  );
}
