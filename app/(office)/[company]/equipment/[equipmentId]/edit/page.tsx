import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { RegisterForm } from "@/components/registry/register-form";
import { PageHeader } from "@/components/ui/page-header";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { findEquipment } from "@/lib/db/equipment";
import { withTenant } from "@/lib/db/tenant";
import { EquipmentId } from "@/lib/ids";
import { unitParts } from "../../_components/unit-parts";
import { changeUnit } from "../../actions";

export const metadata: Metadata = { title: "Change a unit" };

export default async function EditUnitPage(props: { params: Promise<{ company: string; equipmentId: string }> }) {
  const { company, equipmentId } = await props.params;
  const { companyId } = await requireMember(company, ...office);
  const id = EquipmentId.safeParse(equipmentId);
  if (!id.success) notFound();
  const unit = await withTenant(companyId, (tx) => findEquipment(tx, id.data));
  if (!unit) notFound();
  const back = `/${company}/equipment/${unit.id}`;
  const { name, maker, model, serial, place, applianceKind } = unit;
  return (
    <>
      <PageHeader title={`Change ${name}`} back={{ href: back, label: name }} />
      <RegisterForm
        action={changeUnit}
        hidden={{ company, equipmentId: unit.id }}
        parts={unitParts}
        values={{ name, maker, model, serial, place, applianceKind, yearMade: unit.yearMade?.toString() ?? "" }}
        submit="Save"
        cancel={back}
      />
    </>
  );
}
