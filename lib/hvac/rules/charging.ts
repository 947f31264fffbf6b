import { toKelvin, toKelvinDifference, toKg } from "../units";
import type { Source } from "./source";

/** A scale good enough to charge by. */
export const CHARGE_SCALE_ACCURACY_KG = toKg(1, "oz");

/** Tolerances around the target, and when a charge check by superheat says nothing. */
export const CHARGE_CHECK = {
  superheatToleranceK: toKelvinDifference(5, "F"),
  raterSuperheatToleranceK: toKelvinDifference(6, "F"),
  subcoolingToleranceK: toKelvinDifference(3, "F"),
  leastTargetSuperheatK: toKelvinDifference(5, "F"),
  leastOutdoorK: toKelvin(55, "F"),
  stabiliseS: 15 * 60,
} as const;
export const CHARGE_CHECK_SOURCES = {
  superheat: { source: "California reference appendix RA3.2.2 (2008, 2013)", mark: "read" },
  subcooling: { source: "California RA3.2.2; ANSI/ACCA 5 QI-2015", mark: "memory" },
} as const satisfies Readonly<Record<string, Source>>;

/** Target superheat in F at the suction port of a fixed-orifice system; null where it must not be charged so. */
export const FIXED_ORIFICE_TARGET = {
  source: "split-system service instructions; the reading may be 5 F off",
  mark: "read",
  indoorWetBulbF: [50, 52, 54, 56, 58, 60, 62, 64, 66, 68, 70, 72, 74, 76],
  rowsByOutdoorDryBulbF: [
    [40, [15, 18, 20, 23, 26, 29, 32, 34, 38, 41, 43, 46, 48, 51]],
    [45, [13, 16, 18, 21, 24, 27, 30, 33, 36, 39, 41, 44, 46, 49]],
    [50, [11, 14, 16, 19, 22, 25, 28, 31, 34, 37, 39, 42, 44, 47]],
    [55, [9, 12, 14, 17, 20, 23, 27, 30, 33, 36, 38, 40, 42, 44]],
    [60, [7, 10, 12, 15, 18, 21, 24, 27, 30, 33, 35, 38, 40, 43]],
    [65, [null, 6, 10, 13, 16, 19, 21, 24, 27, 30, 33, 36, 38, 41]],
    [70, [null, null, 7, 10, 13, 16, 19, 21, 24, 27, 30, 33, 36, 39]],
    [75, [null, null, null, 6, 9, 12, 15, 18, 21, 24, 28, 31, 34, 37]],
    [80, [null, null, null, null, 5, 8, 12, 15, 18, 21, 25, 28, 31, 35]],
    [85, [null, null, null, null, null, null, 8, 11, 15, 19, 22, 26, 30, 33]],
    [90, [null, null, null, null, null, null, 5, 9, 13, 16, 20, 24, 27, 31]],
    [95, [null, null, null, null, null, null, null, 6, 10, 14, 18, 22, 25, 29]],
    [100, [null, null, null, null, null, null, null, null, 8, 12, 16, 21, 24, 28]],
    [105, [null, null, null, null, null, null, null, null, 5, 9, 13, 17, 22, 26]],
    [110, [null, null, null, null, null, null, null, null, null, 6, 11, 15, 20, 25]],
    [115, [null, null, null, null, null, null, null, null, null, null, 8, 14, 18, 24]],
  ],
} as const satisfies Source & {
  indoorWetBulbF: readonly number[];
  rowsByOutdoorDryBulbF: readonly (readonly [number, readonly (number | null)[]])[];
};
