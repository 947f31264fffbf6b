import { toKg, toMetre } from "../units";
import type { Source } from "./source";

const ozPerFt = (ounces: number) => toKg(ounces, "oz") / toMetre(1, "ft");

/** Refrigerant per metre of liquid line, by its outer diameter in inches; the unit's own manual goes first. */
export const LINE_RATES_R410A = [
  { outerDiameterIn: 1 / 4, kgPerM: ozPerFt(0.3), otherMakerKgPerM: ozPerFt(0.27) },
  { outerDiameterIn: 5 / 16, kgPerM: ozPerFt(0.4), otherMakerKgPerM: ozPerFt(0.4) },
  { outerDiameterIn: 3 / 8, kgPerM: ozPerFt(0.6), otherMakerKgPerM: ozPerFt(0.6) },
  { outerDiameterIn: 1 / 2, kgPerM: ozPerFt(1.2), otherMakerKgPerM: null },
] as const;
export const FIELD_DRIER_KG = toKg(6, "oz");
export const LINE_RATES_SOURCE: Source = { source: "two makers' R-410A split-system instructions", mark: "read" };

/** Ductless R-32 beyond the precharged length: one maker's figures, far below those of a ducted split. */
export const LINE_RATES_R32_DUCTLESS = [
  { outerDiameterIn: 1 / 4, kgPerM: 0.012 },
  { outerDiameterIn: 3 / 8, kgPerM: 0.024 },
  { outerDiameterIn: 1 / 2, kgPerM: 0.04 },
] as const;
