import type { Metadata } from "next";
import { RegisterForm } from "@/components/registry/register-form";
import { PageHeader } from "@/components/ui/page-header";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { listActiveMembers } from "@/lib/db/members";
import { withTenant } from "@/lib/db/tenant";
import { unitSystemOf } from "@/lib/registry/company";
import { cylinderFormParts, massUnitOf } from "../_components/cylinder-parts";
import { addCylinder } from "../actions";

export const metadata: Metadata = { title: "Add a cylinder" };

export default async function NewCylinderPage({ params }: { params: Promise<{ company: string }> }) {
  const { company } = await params;
  const { companyId, ruleSet } = await requireMember(company, ...office);
  const people = await withTenant(companyId, listActiveMembers);
  const system = unitSystemOf(ruleSet);
  return (
    <>
      <PageHeader title="Add a cylinder" back={{ href: `/${company}/cylinders`, label: "Cylinders" }} />
      <RegisterForm
        action={addCylinder}
        hidden={{ company, massUnit: massUnitOf(system) }}
        parts={cylinderFormParts(system, people)}
        values={{ contents: "empty", contentsMass: "0", refillable: "on" }}
        submit="Add the cylinder"
        cancel={`/${company}/cylinders`}
      />
    </>
  );
}
