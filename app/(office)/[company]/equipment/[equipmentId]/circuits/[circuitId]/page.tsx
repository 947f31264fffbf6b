import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { ArchiveButton } from "@/components/registry/archive-button";
import { PageHeader } from "@/components/ui/page-header";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { findCircuit } from "@/lib/db/circuits";
import { withTenant } from "@/lib/db/tenant";
import { listRefrigerants } from "@/lib/hvac";
import { CircuitId } from "@/lib/ids";
import type { CircuitFields } from "@/lib/registry/circuit";
import { unitSystemOf } from "@/lib/registry/company";
import { archiveCircuit, changeCircuit } from "../../../actions";
import { CircuitForm } from "../../_components/circuit-form";
import { circuitParts, circuitValues } from "../../_components/circuit-parts";

export const metadata: Metadata = { title: "Change a circuit" };

export default async function EditCircuitPage(props: {
  params: Promise<{ company: string; equipmentId: string; circuitId: string }>;
}) {
  const { company, equipmentId, circuitId } = await props.params;
  const { companyId, ruleSet } = await requireMember(company, ...office);
  const id = CircuitId.safeParse(circuitId);
  if (!id.success) notFound();
  const circuit = await withTenant(companyId, (tx) => findCircuit(tx, id.data));
  if (circuit?.equipment.id !== equipmentId) notFound();
  const back = `/${company}/equipment/${circuit.equipment.id}`;
  const unitSystem = unitSystemOf(ruleSet);
  const fields = circuit as typeof circuit & CircuitFields; // the column's check allows nothing else
  return (
    <>
      <PageHeader
        title={`Change ${circuit.name} of ${circuit.equipment.name}`}
        back={{ href: back, label: circuit.equipment.name }}
        actions={
          <ArchiveButton
            action={archiveCircuit}
            hidden={{ company, circuitId: circuit.id }}
            archived={circuit.archivedAt !== null}
            name={circuit.name}
          />
        }
      />
      <CircuitForm
        action={changeCircuit}
        hidden={{ company, circuitId: circuit.id, unitSystem }}
        parts={circuitParts(
          unitSystem,
          listRefrigerants().map(({ name }) => name),
        )}
        values={circuitValues(fields, unitSystem)}
        facts={{
          nameplateRefrigerant: circuit.nameplateRefrigerant,
          factoryChargeKg: circuit.factoryChargeKg,
          factoryLineLengthM: circuit.factoryLineLengthM,
          lineLengthM: circuit.lineLengthM,
          liquidLineOdMm: circuit.liquidLineOdMm,
          suctionLineOdMm: circuit.suctionLineOdMm,
        }}
        submit="Save"
        cancel={back}
      />
    </>
  );
}
