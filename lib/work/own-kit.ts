import { type Cylinder, cylinderLimit, findRefrigerant } from "@/lib/hvac";
import { listToolFaults, type ToolDates } from "@/lib/registry/tool-faults";

export interface KitTool extends ToolDates {
  readonly name: string;
  readonly ratedFor: readonly string[];
}
export interface KitCylinder {
  readonly label: string;
  readonly contents: string;
  readonly refrigerant: string | null;
  readonly waterCapacityKg: number;
  readonly tareKg: number;
  readonly contentsKg: number;
  readonly requalifyBy: string | null;
  readonly forFlammables: boolean;
  readonly refillable: boolean;
}

/** What is in the circuit, as far as it is known. */
export interface KitNeed {
  readonly refrigerant: { readonly name: string; readonly safetyClass: string | null } | null;
  readonly fullChargeKg: number | null;
}

/** What of one's own tools should not be leaned on that day, or not with this refrigerant; a line each, nothing where all is well. */
export function listToolWarnings(tools: readonly KitTool[], need: KitNeed, day: string): string[] {
  const safetyClass = need.refrigerant?.safetyClass ?? null;
  return tools.flatMap((tool) => {
    const isUnfit =
      tool.kind === "recovery-machine" &&
      safetyClass !== null &&
      tool.ratedFor.length > 0 &&
      !tool.ratedFor.includes(safetyClass);
    const faults = [...listToolFaults(tool, day), ...(isUnfit ? [`not rated for class ${safetyClass}`] : [])];
    return faults.length === 0 ? [] : [`${tool.name}: ${faults.join(", ")}`];
  });
}

export interface KitRoom {
  /** Of all that may be filled; null while it is not known what is to be recovered. */
  readonly roomKg: number | null;
  readonly fit: readonly { readonly label: string; readonly roomKg: number }[];
  readonly unfit: readonly string[];
}

const TAKES_RECOVERED: readonly string[] = ["recovered", "empty"];

/** Room in kg for what is to be recovered, in one's own recovery cylinders that may be filled that day, and why others may not. */
export function roomToRecover(cylinders: readonly KitCylinder[], need: KitNeed, day: string): KitRoom {
  const unfit: string[] = [];
  const fit: { label: string; roomKg: number }[] = [];
  const refrigerant = need.refrigerant ? findRefrigerant(need.refrigerant.name) : undefined;
  const isFlammable = need.refrigerant?.safetyClass !== "A1"; // as long as it is not known too
  let roomKg: number | null = refrigerant ? 0 : null;
  for (const cylinder of cylinders.filter(({ refillable }) => refillable)) {
    const holdsOther = cylinder.contentsKg > 0 && cylinder.refrigerant !== (need.refrigerant?.name ?? null);
    if (!TAKES_RECOVERED.includes(cylinder.contents) || holdsOther) continue;
    if (cylinder.requalifyBy === null || cylinder.requalifyBy.slice(0, 10) < day) {
      unfit.push(
        `${cylinder.label}: ${cylinder.requalifyBy ? `requalification ran out on ${cylinder.requalifyBy.slice(0, 10)}` : "requalification not known"}`,
      );
      continue;
    }
    if (isFlammable && !cylinder.forFlammables) {
      unfit.push(`${cylinder.label}: not marked for flammables`);
      continue;
    }
    if (!refrigerant || roomKg === null) continue;
    const limit = cylinderLimit(asStamped(cylinder), refrigerant);
    if (!limit.ok) continue;
    const roomInItKg = Math.max(0, limit.value.netKg - cylinder.contentsKg);
    roomKg += roomInItKg;
    fit.push({ label: cylinder.label, roomKg: roomInItKg });
  }
  return { roomKg, fit, unfit };
}

function asStamped(cylinder: KitCylinder): Cylinder {
  return {
    waterCapacityKg: cylinder.waterCapacityKg,
    tareKg: cylinder.tareKg,
    contents: cylinder.refrigerant,
    requalificationDueOn: cylinder.requalifyBy,
    disposable: !cylinder.refillable,
    damaged: false,
    markedForFlammables: cylinder.forFlammables,
  };
}
