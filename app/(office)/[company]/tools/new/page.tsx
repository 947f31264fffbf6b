import type { Metadata } from "next";
import { RegisterForm } from "@/components/registry/register-form";
import { PageHeader } from "@/components/ui/page-header";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { listActiveMembers } from "@/lib/db/members";
import { withTenant } from "@/lib/db/tenant";
import { toolFormParts } from "../_components/tool-parts";
import { addTool } from "../actions";

export const metadata: Metadata = { title: "Add a tool" };

export default async function NewToolPage({ params }: { params: Promise<{ company: string }> }) {
  const { company } = await params;
  const { companyId } = await requireMember(company, ...office);
  const people = await withTenant(companyId, listActiveMembers);
  return (
    <>
      <PageHeader title="Add a tool" back={{ href: `/${company}/tools`, label: "Tools" }} />
      <RegisterForm
        action={addTool}
        hidden={{ company }}
        parts={toolFormParts(people)}
        values={{ kind: "pump" }}
        submit="Add the tool"
        cancel={`/${company}/tools`}
      />
    </>
  );
}
