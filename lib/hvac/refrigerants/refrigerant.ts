import type { Source } from "../rules/source";
import { REFRIGERANTS } from "./data";

/** @source ISO 817 and ASHRAE 34: toxicity A or B, flammability 1 to 3 with 2L between */
export type SafetyClass = "A1" | "A2L" | "A2" | "A3" | "B1" | "B2L" | "B2" | "B3";
/** @source 40 CFR 82.152; an explicit field because trade lists disagree with the limits near their edges */
export type PressureClass = "low" | "medium" | "high" | "very-high";

export interface Refrigerant {
  /** ASHRAE designation, as in "R-410A". */
  readonly name: string;
  readonly family: "HCFC" | "HFC" | "HFC/HFO" | "HFO" | "HC" | "CO2" | "NH3";
  readonly safetyClass: SafetyClass;
  readonly pressureClass: PressureClass;
  readonly massFractions: Readonly<Record<string, number>>;
  readonly molarMassKgPerMol: number;
  readonly lowerFlammableLimit: ({ readonly kgPerM3: number } & Source) | null;
  /** Refrigerant concentration limit of an occupied space. */
  readonly concentrationLimit: { readonly kgPerM3: number; readonly ppmByVolume: number } | null;
  readonly saturation: SaturationFit;
}

export interface SaturationFit {
  readonly fromC: number;
  readonly toC: number;
  readonly reducingK: number;
  readonly reducingPa: number;
  readonly reducingKgPerM3: number;
  readonly bubble: readonly number[];
  /** null where bubble and dew are one curve. */
  readonly dew: readonly number[] | null;
  readonly liquid: readonly number[];
  readonly vapour: readonly number[];
  readonly pressureErrorPercent: number;
  readonly densityErrorPercent: number;
  readonly equationOfState: string;
}

const byKey = new Map(REFRIGERANTS.map((refrigerant) => [key(refrigerant.name), refrigerant]));

/** The refrigerant of this designation; "r410a" and "R-410A" are the same one. */
export function findRefrigerant(name: string): Refrigerant | undefined {
  return byKey.get(key(name));
}

export function listRefrigerants(): readonly Refrigerant[] {
  return REFRIGERANTS;
}

/** Whether the extra steps for flammables apply. */
export function isFlammable(safetyClass: SafetyClass): boolean {
  return safetyClass !== "A1" && safetyClass !== "B1";
}

function key(name: string): string {
  return name.toUpperCase().replace(/[\s-]/g, "");
}
