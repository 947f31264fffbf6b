import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { RegisterForm } from "@/components/registry/register-form";
import { PageHeader } from "@/components/ui/page-header";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { findCustomer } from "@/lib/db/customers";
import { withTenant } from "@/lib/db/tenant";
import { CustomerId } from "@/lib/ids";
import { siteParts } from "../../../_components/customer-parts";
import { addSite } from "../../../actions";

export const metadata: Metadata = { title: "Add a site" };

export default async function NewSitePage(props: { params: Promise<{ company: string; customerId: string }> }) {
  const { company, customerId } = await props.params;
  const { companyId, timeZone } = await requireMember(company, ...office);
  const id = CustomerId.safeParse(customerId);
  if (!id.success) notFound();
  const customer = await withTenant(companyId, (tx) => findCustomer(tx, id.data));
  if (!customer) notFound();
  const back = `/${company}/customers/${customer.id}`;
  return (
    <>
      <PageHeader title={`Add a site of ${customer.name}`} back={{ href: back, label: customer.name }} />
      <RegisterForm
        action={addSite}
        hidden={{ company, customerId: customer.id }}
        parts={siteParts(Intl.supportedValuesOf("timeZone"))}
        values={{ timeZone, name: customer.sites.length === 0 ? customer.name : "" }}
        submit="Add the site"
        cancel={back}
      />
    </>
  );
}
