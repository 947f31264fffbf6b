import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { RegisterForm } from "@/components/registry/register-form";
import { PageHeader } from "@/components/ui/page-header";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { findCustomer } from "@/lib/db/customers";
import { withTenant } from "@/lib/db/tenant";
import { CustomerId } from "@/lib/ids";
import { customerParts } from "../../_components/customer-parts";
import { changeCustomer } from "../../actions";

export const metadata: Metadata = { title: "Change a customer" };

export default async function EditCustomerPage(props: { params: Promise<{ company: string; customerId: string }> }) {
  const { company, customerId } = await props.params;
  const { companyId } = await requireMember(company, ...office);
  const id = CustomerId.safeParse(customerId);
  if (!id.success) notFound();
  const customer = await withTenant(companyId, (tx) => findCustomer(tx, id.data));
  if (!customer) notFound();
  const { name, phone, email, note } = customer;
  const back = `/${company}/customers/${customer.id}`;
  return (
    <>
      <PageHeader title={`Change ${name}`} back={{ href: back, label: name }} />
      <RegisterForm
        action={changeCustomer}
        hidden={{ company, customerId: customer.id }}
        parts={customerParts}
        values={{ name, phone, email, mayWrite: customer.mayWrite ? "on" : "", note }}
        submit="Save"
        cancel={back}
      />
    </>
  );
}
