import { DesignPressure, Length, LineSize, Mass } from "@/components/registry/measures";
import { RefrigerantOf } from "@/components/registry/refrigerant-of";
import { VolumeEstimateWords } from "@/components/registry/volume-estimate";
import { volumeBasisWord } from "@/components/registry/words";
import { Link } from "@/components/ui/link";
import { Quantity } from "@/components/ui/quantity";
import { Facts } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import type { findEquipment } from "@/lib/db/equipment";
import { findRefrigerant } from "@/lib/hvac";
import type { VolumeBasis } from "@/lib/registry/circuit";
import { estimateCircuitVolume } from "@/lib/registry/circuit-volume";
import type { UnitSystem } from "@/lib/registry/company";

type Circuit = NonNullable<Awaited<ReturnType<typeof findEquipment>>>["circuits"][number];

/** Everything known of one circuit, in the company's units. */
export function CircuitSheet(props: { circuit: Circuit; system: UnitSystem; editHref?: string }) {
  const { circuit, system, editHref } = props;
  const known = circuit.actualRefrigerant ? findRefrigerant(circuit.actualRefrigerant) : undefined;
  return (
    <div className="grid gap-1 border-t border-edge pt-2">
      <div className="flex items-baseline justify-between gap-4">
        <h3 className="text-body">
          {circuit.name}
          {circuit.archivedAt && <StateMark state="waiting" word="Archived" className="ml-3" />}
        </h3>
        {editHref && <Link href={editHref}>Change {circuit.name}</Link>}
      </div>
      <Facts
        items={[
          { term: "In it now", value: <RefrigerantOf circuit={circuit} /> },
          {
            term: "Safety class",
            value: known?.safetyClass ?? (circuit.actualRefrigerant ? "no data for this refrigerant" : "not known"),
          },
          {
            term: "Factory charge",
            value: (
              <>
                <Mass value={circuit.factoryChargeKg} system={system} />
                {circuit.factoryLineLengthM !== null && (
                  <>
                    {" for "}
                    <Length value={circuit.factoryLineLengthM} system={system} /> of line
                  </>
                )}
              </>
            ),
          },
          {
            term: "Line set",
            value: (
              <span className="flex flex-wrap gap-x-4">
                <Length value={circuit.lineLengthM} system={system} />
                <span>
                  liquid <LineSize value={circuit.liquidLineOdMm} system={system} />
                </span>
                <span>
                  suction <LineSize value={circuit.suctionLineOdMm} system={system} />
                </span>
              </span>
            ),
          },
          {
            term: "Design pressure",
            value: (
              <span className="flex flex-wrap gap-x-4">
                <span>
                  low side <DesignPressure value={circuit.lowSideDesignKpaGauge} system={system} />
                </span>
                <span>
                  high side <DesignPressure value={circuit.highSideDesignKpaGauge} system={system} />
                </span>
              </span>
            ),
          },
          { term: "Internal volume", value: <InternalVolume circuit={circuit} /> },
        ]}
      />
    </div>
  );
}

function InternalVolume({ circuit }: { circuit: Circuit }) {
  const basis = circuit.internalVolumeBasis as VolumeBasis;
  const estimate = estimateCircuitVolume(circuit);
  return (
    <div className="grid gap-1">
      {basis !== "unknown" && (
        <p>
          <Quantity value={circuit.internalVolumeL} unit="L" digits={1} />, {volumeBasisWord[basis].toLowerCase()}
        </p>
      )}
      {(basis === "unknown" || (basis === "estimated" && estimate.ok)) && <VolumeEstimateWords estimate={estimate} />}
    </div>
  );
}
