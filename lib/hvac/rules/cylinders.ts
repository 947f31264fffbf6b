import { toKelvin } from "../units";
import type { Source } from "./source";

/** Filling a recovery cylinder: how full, at what temperature, for how long after its stamp. */
export const CYLINDER_RULE = {
  fillFraction: 0.8,
  fillTemperatureK: toKelvin(77, "F"),
  /** Density of water at 25 C in kg/m3: a stamped water capacity is a mass of water. */
  waterDensityKgPerM3: 997.05,
  hotTemperatureK: toKelvin(130, "F"),
  /** At the hot temperature the pressure may reach this multiple of the stamped service pressure. */
  hotPressureFactor: 1.25,
  requalificationYears: 5,
} as const;

export const CYLINDER_SOURCES = {
  fill: { source: "AHRI Guideline K: 80 % of the volume at 77 F by liquid density", mark: "secondary" },
  hot: { source: "49 CFR 173.304a: not liquid-full at 130 F", mark: "memory" },
  pressure: { source: "49 CFR 173.301: at 55 C not above 5/4 of the service pressure", mark: "memory" },
  requalification: { source: "49 CFR 180.205, 180.209 Table 1", mark: "memory" },
  disposable: { source: "49 CFR 173.304a, 178.65", mark: "memory" },
  oneRefrigerant: { source: "40 CFR 82.156 and reclaim practice: never mix", mark: "read" },
  flammable: { source: "cylinder marked for flammables, left-hand fitting", mark: "memory" },
} as const satisfies Readonly<Record<string, Source>>;
