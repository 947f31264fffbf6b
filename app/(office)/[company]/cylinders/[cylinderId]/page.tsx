import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { ArchiveButton } from "@/components/registry/archive-button";
import { RegisterForm } from "@/components/registry/register-form";
import { PageHeader } from "@/components/ui/page-header";
import { Facts } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { findCylinder } from "@/lib/db/cylinders";
import { listActiveMembers } from "@/lib/db/members";
import { withTenant } from "@/lib/db/tenant";
import { CylinderId } from "@/lib/ids";
import { unitSystemOf } from "@/lib/registry/company";
import { cylinderFormParts, cylinderValues, massUnitOf } from "../_components/cylinder-parts";
import { FillLimit } from "../_components/fill-limit";
import { changeCylinder, retireCylinder } from "../actions";

export const metadata: Metadata = { title: "Cylinder" };

export default async function CylinderPage(props: { params: Promise<{ company: string; cylinderId: string }> }) {
  const { company, cylinderId } = await props.params;
  const { companyId, ruleSet } = await requireMember(company, ...office);
  const id = CylinderId.safeParse(cylinderId);
  if (!id.success) notFound();
  const { cylinder, people } = await withTenant(companyId, async (tx) => ({
    cylinder: await findCylinder(tx, id.data),
    people: await listActiveMembers(tx),
  }));
  if (!cylinder) notFound();
  const system = unitSystemOf(ruleSet);
  return (
    <>
      <PageHeader
        title={`Cylinder ${cylinder.label}`}
        lead={cylinder.retiredAt && <StateMark state="waiting" word="Retired" />}
        back={{ href: `/${company}/cylinders`, label: "Cylinders" }}
        actions={
          <ArchiveButton
            action={retireCylinder}
            hidden={{ company, cylinderId: cylinder.id }}
            archived={cylinder.retiredAt !== null}
            name={`Cylinder ${cylinder.label}`}
            words={{ away: "Retire", back: "Bring back", isAway: "retired", isBack: "is back in use" }}
          />
        }
      />
      <Facts items={[{ term: "Fill limit", value: <FillLimit cylinder={cylinder} system={system} /> }]} />
      <RegisterForm
        action={changeCylinder}
        hidden={{ company, cylinderId: cylinder.id, massUnit: massUnitOf(system) }}
        parts={cylinderFormParts(system, people)}
        values={cylinderValues(cylinder, system)}
        submit="Save"
        cancel={`/${company}/cylinders`}
      />
    </>
  );
}
