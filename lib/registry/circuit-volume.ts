import { findRefrigerant } from "@/lib/hvac/refrigerants/refrigerant";
import { liquidDensityKgPerM3 } from "@/lib/hvac/refrigerants/saturation";
import { celsiusToKelvin } from "@/lib/hvac/units";
import { err, ok, type Result } from "@/lib/result";
import { insideDiameterMm } from "./line-size";

export interface VolumeFacts {
  /** What the factory charged: the nameplate's, not what is in the circuit now. */
  readonly nameplateRefrigerant: string | null;
  readonly factoryChargeKg: number | null;
  readonly factoryLineLengthM: number | null;
  readonly lineLengthM: number | null;
  readonly liquidLineOdMm: number | null;
  readonly suctionLineOdMm: number | null;
}

export type MissingForVolume =
  | "nameplate-refrigerant"
  | "refrigerant-data"
  | "factory-charge"
  | "factory-line-length"
  | "line-sizes";
export type VolumeError = { readonly code: "volume-not-estimable"; readonly missing: readonly MissingForVolume[] };

export interface VolumeEstimate {
  readonly litres: number;
  readonly lowLitres: number;
  readonly highLitres: number;
  /** Of which the line set beyond the factory's length. */
  readonly extraLineLitres: number;
}

/** How much of a charged circuit's volume the charge would fill as liquid at 25 C: usual, and the widest met. */
const LIQUID_FILL = { usual: 0.4, low: 0.25, high: 0.6 } as const;

/**
 * Internal volume of a circuit in litres, with a wide interval, from its factory charge and its line set.
 *
 * The unit and the factory's length of line: charge / (liquid density x fill). Line beyond that length: its section
 * times its length; shorter line is taken off. Without a line set the first part stands alone.
 * @returns the estimate, or what is missing for it
 * @source fill fractions: common practice, no source; hence the interval. Density: the refrigerant's own correlation
 */
export function estimateCircuitVolume(facts: VolumeFacts): Result<VolumeEstimate, VolumeError> {
  const refrigerant = facts.nameplateRefrigerant ? findRefrigerant(facts.nameplateRefrigerant) : undefined;
  const density = refrigerant && liquidDensityKgPerM3(refrigerant, celsiusToKelvin(25));
  const extra = extraLineLitres(facts);
  const missing: MissingForVolume[] = [];
  if (!facts.nameplateRefrigerant) missing.push("nameplate-refrigerant");
  else if (!density?.ok) missing.push("refrigerant-data");
  if (facts.factoryChargeKg === null) missing.push("factory-charge");
  if (!extra.ok) missing.push(...extra.error);
  if (!density?.ok || facts.factoryChargeKg === null || !extra.ok) {
    return err({ code: "volume-not-estimable", missing });
  }
  const liquidLitres = (facts.factoryChargeKg / density.value) * 1000;
  const litresAt = (fill: number) => Math.max(liquidLitres / fill + extra.value, liquidLitres);
  return ok({
    litres: litresAt(LIQUID_FILL.usual),
    lowLitres: litresAt(LIQUID_FILL.high),
    highLitres: litresAt(LIQUID_FILL.low),
    extraLineLitres: extra.value,
  });
}

function extraLineLitres(facts: VolumeFacts): Result<number, readonly MissingForVolume[]> {
  const { lineLengthM, factoryLineLengthM, liquidLineOdMm, suctionLineOdMm } = facts;
  if (lineLengthM === null) return ok(0);
  const missing: MissingForVolume[] = [];
  if (factoryLineLengthM === null) missing.push("factory-line-length");
  if (liquidLineOdMm === null || suctionLineOdMm === null) missing.push("line-sizes");
  if (factoryLineLengthM === null || liquidLineOdMm === null || suctionLineOdMm === null) return err(missing);
  return ok((lineLengthM - factoryLineLengthM) * (litresPerM(liquidLineOdMm) + litresPerM(suctionLineOdMm)));
}

function litresPerM(outsideDiameterMm: number): number {
  return (Math.PI / 4) * insideDiameterMm(outsideDiameterMm) ** 2 * 1e-3;
}
