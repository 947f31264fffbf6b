import * as z from "zod";
import { findRefrigerant } from "@/lib/hvac/refrigerants/refrigerant";
import { toKg, toMetre, toPa } from "@/lib/hvac/units";
import { estimateCircuitVolume } from "./circuit-volume";
import { line, optionalNumber, requiredLine } from "./fields";
import { parseInches } from "./line-size";

export const REFRIGERANT_STATES = ["identified", "retrofitted", "mixed", "unknown"] as const;
export type RefrigerantState = (typeof REFRIGERANT_STATES)[number];

export const VOLUME_BASES = ["stated", "measured", "estimated", "unknown"] as const;
export type VolumeBasis = (typeof VOLUME_BASES)[number];

/** A circuit as the register keeps it: SI, with null for "not known". */
export interface CircuitFields {
  readonly name: string;
  readonly nameplateRefrigerant: string | null;
  readonly refrigerantState: RefrigerantState;
  readonly actualRefrigerant: string | null;
  readonly factoryChargeKg: number | null;
  readonly factoryLineLengthM: number | null;
  readonly lineLengthM: number | null;
  readonly liquidLineOdMm: number | null;
  readonly suctionLineOdMm: number | null;
  readonly internalVolumeL: number | null;
  readonly internalVolumeBasis: VolumeBasis;
  readonly lowSideDesignKpaGauge: number | null;
  readonly highSideDesignKpaGauge: number | null;
}

/** A refrigerant's designation, written as the product writes it where it is a known one ("r410a" is R-410A). */
export const refrigerantName = line(40).transform((typed) => findRefrigerant(typed)?.name ?? typed);

const inches = z.string().transform((typed, context): number | null => {
  if (typed.trim() === "") return null;
  const size = parseInches(typed);
  if (size.ok) return size.value;
  context.addIssue({ code: "custom", message: "Write the size as 3/8, 1 1/8 or 0.375." });
  return z.NEVER;
});

const shared = {
  name: requiredLine(100, "Give the circuit a name, such as Circuit 1."),
  nameplateRefrigerant: refrigerantName,
  refrigerantState: z.enum(REFRIGERANT_STATES),
  actualRefrigerant: refrigerantName.default(""), // not asked while nothing is known
  internalVolumeBasis: z.enum(VOLUME_BASES),
  internalVolumeL: optionalNumber({ over: 0, max: 100_000 }).default(null),
};

const usWire = z.strictObject({
  unitSystem: z.literal("us"),
  ...shared,
  factoryChargeLb: optionalNumber({ min: 0, max: 100_000 }),
  factoryChargeOz: optionalNumber({ min: 0, max: 100_000 }),
  factoryLineLengthFt: optionalNumber({ min: 0, max: 10_000 }),
  lineLengthFt: optionalNumber({ min: 0, max: 10_000 }),
  liquidLineOdIn: inches,
  suctionLineOdIn: inches,
  lowSideDesignPsig: optionalNumber({ over: 0, max: 5_000 }),
  highSideDesignPsig: optionalNumber({ over: 0, max: 5_000 }),
});

const siWire = z.strictObject({
  unitSystem: z.literal("si"),
  ...shared,
  factoryChargeKg: optionalNumber({ over: 0, max: 50_000 }),
  factoryLineLengthM: optionalNumber({ min: 0, max: 3_000 }),
  lineLengthM: optionalNumber({ min: 0, max: 3_000 }),
  liquidLineOdMm: optionalNumber({ over: 0, max: 300 }),
  suctionLineOdMm: optionalNumber({ over: 0, max: 300 }),
  lowSideDesignKpaGauge: optionalNumber({ over: 0, max: 35_000 }),
  highSideDesignKpaGauge: optionalNumber({ over: 0, max: 35_000 }),
});

/** A circuit as the office types it, in either system of units, to the register's SI; an estimated volume is computed here, never typed. */
export const circuitForm = z
  .discriminatedUnion("unitSystem", [usWire, siWire])
  .transform((wire, context): CircuitFields => {
    const quantities = wire.unitSystem === "us" ? fromUs(wire) : fromSi(wire);
    const stated = wire.refrigerantState === "identified" || wire.refrigerantState === "retrofitted";
    const actual = wire.actualRefrigerant || (wire.refrigerantState === "identified" ? wire.nameplateRefrigerant : "");
    const nameplateRefrigerant = wire.nameplateRefrigerant || null;
    const issue = (field: string, message: string) => context.addIssue({ code: "custom", path: [field], message });
    if (stated && !actual) issue("actualRefrigerant", "Say which refrigerant is in the circuit now.");
    if (wire.refrigerantState === "retrofitted" && actual && actual === wire.nameplateRefrigerant)
      issue("actualRefrigerant", "A retrofit holds another refrigerant than the nameplate's.");
    const volume = volumeOf(wire.internalVolumeBasis, wire.internalVolumeL, { nameplateRefrigerant, ...quantities });
    if (typeof volume === "string") issue("internalVolumeL", volume);
    return {
      name: wire.name,
      nameplateRefrigerant,
      refrigerantState: wire.refrigerantState,
      actualRefrigerant: stated ? actual : null,
      ...quantities,
      internalVolumeL: typeof volume === "string" ? null : volume,
      internalVolumeBasis: wire.internalVolumeBasis,
    };
  });

function volumeOf(basis: VolumeBasis, typedL: number | null, facts: Parameters<typeof estimateCircuitVolume>[0]) {
  switch (basis) {
    case "unknown":
      return null;
    case "stated":
    case "measured":
      return typedL ?? "Give the volume, or choose another basis.";
    case "estimated": {
      const estimate = estimateCircuitVolume(facts);
      return estimate.ok ? Number(estimate.value.litres.toPrecision(3)) : "Not enough is known to estimate it.";
    }
  }
}

function fromUs(wire: z.output<typeof usWire>) {
  const chargeKg = toKg(wire.factoryChargeLb ?? 0, "lb") + toKg(wire.factoryChargeOz ?? 0, "oz");
  return {
    factoryChargeKg: chargeKg > 0 ? chargeKg : null,
    factoryLineLengthM: converted(wire.factoryLineLengthFt, (ft) => toMetre(ft, "ft")),
    lineLengthM: converted(wire.lineLengthFt, (ft) => toMetre(ft, "ft")),
    liquidLineOdMm: wire.liquidLineOdIn,
    suctionLineOdMm: wire.suctionLineOdIn,
    lowSideDesignKpaGauge: converted(wire.lowSideDesignPsig, (psi) => toPa(psi, "psi") / 1000),
    highSideDesignKpaGauge: converted(wire.highSideDesignPsig, (psi) => toPa(psi, "psi") / 1000),
  };
}

function fromSi(wire: z.output<typeof siWire>) {
  const { factoryChargeKg, factoryLineLengthM, lineLengthM, liquidLineOdMm, suctionLineOdMm } = wire;
  const { lowSideDesignKpaGauge, highSideDesignKpaGauge } = wire;
  return {
    factoryChargeKg,
    factoryLineLengthM,
    lineLengthM,
    liquidLineOdMm,
    suctionLineOdMm,
    lowSideDesignKpaGauge,
    highSideDesignKpaGauge,
  };
}

const converted = (value: number | null, convert: (value: number) => number) =>
  value === null ? null : convert(value);
