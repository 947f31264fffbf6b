import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { PageHeader } from "@/components/ui/page-header";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { findEquipment } from "@/lib/db/equipment";
import { withTenant } from "@/lib/db/tenant";
import { listRefrigerants } from "@/lib/hvac";
import { EquipmentId } from "@/lib/ids";
import type { CircuitFields } from "@/lib/registry/circuit";
import { unitSystemOf } from "@/lib/registry/company";
import { addCircuit } from "../../../actions";
import { CircuitForm } from "../../_components/circuit-form";
import { circuitParts, circuitValues } from "../../_components/circuit-parts";

export const metadata: Metadata = { title: "Add a circuit" };

export default async function NewCircuitPage(props: { params: Promise<{ company: string; equipmentId: string }> }) {
  const { company, equipmentId } = await props.params;
  const { companyId, ruleSet } = await requireMember(company, ...office);
  const id = EquipmentId.safeParse(equipmentId);
  if (!id.success) notFound();
  const unit = await withTenant(companyId, (tx) => findEquipment(tx, id.data));
  if (!unit) notFound();
  const back = `/${company}/equipment/${unit.id}`;
  const unitSystem = unitSystemOf(ruleSet);
  const blank = { ...nothingKnown, name: `Circuit ${unit.circuits.length + 1}` };
  return (
    <>
      <PageHeader title={`Add a circuit of ${unit.name}`} back={{ href: back, label: unit.name }} />
      <CircuitForm
        action={addCircuit}
        hidden={{ company, equipmentId: unit.id, unitSystem }}
        parts={circuitParts(
          unitSystem,
          listRefrigerants().map(({ name }) => name),
        )}
        values={circuitValues(blank, unitSystem)}
        facts={blank}
        submit="Add the circuit"
        cancel={back}
      />
    </>
  );
}

const nothingKnown: Omit<CircuitFields, "name"> = {
  nameplateRefrigerant: null,
  refrigerantState: "unknown",
  actualRefrigerant: null,
  factoryChargeKg: null,
  factoryLineLengthM: null,
  lineLengthM: null,
  liquidLineOdMm: null,
  suctionLineOdMm: null,
  internalVolumeL: null,
  internalVolumeBasis: "unknown",
  lowSideDesignKpaGauge: null,
  highSideDesignKpaGauge: null,
};
