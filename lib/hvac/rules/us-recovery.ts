import type { PressureClass } from "../refrigerants/refrigerant";
import { toKg, toPa } from "../units";
import type { Source } from "./source";

/** Recovery machines made before 15 November 1993 are held to an older column. */
export type RecoveryMachineAge = "before-1993-11-15" | "on-or-after-1993-11-15";

/** A level in the rule's own unit: vacuum is relative to its standard atmosphere of 29.9 inHg. */
export interface RecoveryLevel {
  readonly value: number;
  readonly unit: "inHg-vacuum" | "mmHg-absolute";
}

export interface RecoveryRow {
  readonly pressureClass: PressureClass;
  readonly chargeFromKg: number;
  readonly chargeBelowKg: number | null;
  readonly level: Readonly<Record<RecoveryMachineAge, RecoveryLevel>>;
}

/** @source 40 CFR 82.156(a) Table 1, head */
export const RULE_ATMOSPHERE_PA = toPa(29.9, "inHg");
const LARGE_CHARGE_KG = toKg(200, "lb");

const vacuum = (older: number, newer: number): RecoveryRow["level"] => ({
  "before-1993-11-15": { value: older, unit: "inHg-vacuum" },
  "on-or-after-1993-11-15": { value: newer, unit: "inHg-vacuum" },
});
const absolute = (value: number): RecoveryRow["level"] => ({
  "before-1993-11-15": { value, unit: "mmHg-absolute" },
  "on-or-after-1993-11-15": { value, unit: "mmHg-absolute" },
});

/** @source 40 CFR 82.156(a) Table 1 [read]; 15 inHg stands in the regulation where an old agency page prints 10 */
export const US_RECOVERY_TABLE: readonly RecoveryRow[] = [
  { pressureClass: "very-high", chargeFromKg: 0, chargeBelowKg: null, level: vacuum(0, 0) },
  { pressureClass: "high", chargeFromKg: 0, chargeBelowKg: LARGE_CHARGE_KG, level: vacuum(0, 0) },
  { pressureClass: "high", chargeFromKg: LARGE_CHARGE_KG, chargeBelowKg: null, level: vacuum(4, 10) },
  { pressureClass: "medium", chargeFromKg: 0, chargeBelowKg: LARGE_CHARGE_KG, level: vacuum(4, 10) },
  { pressureClass: "medium", chargeFromKg: LARGE_CHARGE_KG, chargeBelowKg: null, level: vacuum(4, 15) },
  { pressureClass: "low", chargeFromKg: 0, chargeBelowKg: null, level: absolute(25) },
];

/** Factory-sealed appliances: a share of the charge, or the vacuum instead. */
export const US_SMALL_APPLIANCE = {
  maxChargeKg: toKg(5, "lb"),
  olderMachineFraction: 0.8,
  compressorWorksFraction: 0.9,
  compressorDeadFraction: 0.8,
  orVacuum: { value: 4, unit: "inHg-vacuum" },
} as const;

/** Millimetres of mercury below the atmosphere for appliances like motor vehicle air conditioners. */
export const US_MVAC_LIKE_BELOW_ATMOSPHERE_PA = toPa(102, "mmHg");

/** Where each way to meet the duty stands. */
export const US_RECOVERY_SOURCES = {
  table: { source: "40 CFR 82.156(a) Table 1", mark: "read" },
  "isolated-part": { source: "40 CFR 82.156(a) and Table 1: the part, where it can be isolated", mark: "read" },
  "level-unattainable": { source: "40 CFR 82.156(a)(2)", mark: "secondary" },
  "found-at-atmosphere": { source: "40 CFR 82.156(a)(2): nothing above 0 psig is left to recover", mark: "secondary" },
  "non-major-repair": { source: "40 CFR 82.156(a)(1)(i)", mark: "read" },
  "small-appliance": { source: "40 CFR 82.156(b)", mark: "secondary" },
  "mvac-like": { source: "40 CFR 82.156(c)", mark: "memory" },
} as const satisfies Readonly<Record<string, Source>>;
