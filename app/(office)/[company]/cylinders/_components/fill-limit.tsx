import { ScaleMass } from "@/components/registry/measures";
import { StateMark } from "@/components/ui/state-mark";
import { cylinderLimit, findRefrigerant, isFlammable } from "@/lib/hvac";
import type { UnitSystem } from "@/lib/registry/company";

interface Filled {
  refrigerant: string | null;
  waterCapacityKg: number;
  tareKg: number;
  contentsKg: number;
  requalifyBy: string | null;
  refillable: boolean;
  forFlammables: boolean;
}

/** The most this cylinder may weigh with its refrigerant, by the liquid's density, and whether it is past that. */
export function FillLimit({ cylinder, system }: { cylinder: Filled; system: UnitSystem }) {
  const refrigerant = cylinder.refrigerant ? findRefrigerant(cylinder.refrigerant) : undefined;
  if (!cylinder.refrigerant) return <span className="text-ink-soft">depends on the refrigerant</span>;
  const limit =
    refrigerant &&
    cylinderLimit(
      {
        waterCapacityKg: cylinder.waterCapacityKg,
        tareKg: cylinder.tareKg,
        contents: refrigerant.name,
        requalificationDueOn: cylinder.requalifyBy,
        disposable: !cylinder.refillable,
        damaged: false,
        markedForFlammables: cylinder.forFlammables,
      },
      refrigerant,
    );
  if (!refrigerant || !limit?.ok) return <StateMark state="cannot-say" word="Take it from the label" />;
  return (
    <span className="grid">
      <span>
        <ScaleMass value={limit.value.netKg} system={system} /> net,{" "}
        <ScaleMass value={limit.value.grossKg} system={system} /> gross
      </span>
      {cylinder.contentsKg > limit.value.netKg && (
        <StateMark state="refused" word="Overfilled: keep it cool, empty it now" />
      )}
      {isFlammable(refrigerant.safetyClass) && !cylinder.forFlammables && (
        <StateMark state="refused" word="Not marked for flammables" />
      )}
    </span>
  );
}
