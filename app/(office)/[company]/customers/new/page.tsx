import type { Metadata } from "next";
import { RegisterForm } from "@/components/registry/register-form";
import { PageHeader } from "@/components/ui/page-header";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { customerParts } from "../_components/customer-parts";
import { addCustomer } from "../actions";

export const metadata: Metadata = { title: "Add a customer" };

export default async function NewCustomerPage({ params }: { params: Promise<{ company: string }> }) {
  const { company } = await params;
  await requireMember(company, ...office);
  return (
    <>
      <PageHeader title="Add a customer" back={{ href: `/${company}/customers`, label: "Customers" }} />
      <RegisterForm
        action={addCustomer}
        hidden={{ company }}
        parts={customerParts}
        values={{}}
        submit="Add the customer"
        cancel={`/${company}/customers`}
      />
    </>
  );
}
