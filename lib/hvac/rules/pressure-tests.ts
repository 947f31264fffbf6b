import { toPa } from "../units";
import type { Source } from "./source";

/** How high a standing test goes, relative to the design pressure of the weakest part connected. */
export interface PressureTestRule extends Source {
  readonly id: string;
  readonly strengthFactor: number;
  readonly tightnessFactor: number;
}

export const PRESSURE_TEST_RULES = {
  us: {
    id: "ashrae_15",
    strengthFactor: 1,
    tightnessFactor: 1,
    source: "ASHRAE 15-2022: at least the lower of design pressure and relief setting of the side tested",
    mark: "memory",
  },
  eu: {
    id: "en378_iso5149",
    strengthFactor: 1.1,
    tightnessFactor: 1,
    source: "EN 378-2:2016, ISO 5149-2:2014",
    mark: "memory",
  },
} as const satisfies Readonly<Record<"us" | "eu", PressureTestRule>>;

/** Where the nameplate is silent: gauge pressure people commonly test at. Never above the weakest part's limit. */
export const CUSTOMARY_TEST_PRESSURES = [
  { refrigerants: ["R-22", "R-407C"], fromGaugePa: toPa(150, "psi"), toGaugePa: toPa(250, "psi") },
  { refrigerants: ["R-410A", "R-454B", "R-32"], fromGaugePa: toPa(300, "psi"), toGaugePa: toPa(600, "psi") },
] as const;
export const CUSTOMARY_TEST_SOURCE: Source = { source: "common practice", mark: "common-practice" };

/** Pressure is raised in steps, listening at each. */
export const PRESSURE_STEPS_GAUGE_PA = [toPa(50, "psi"), toPa(150, "psi")] as const;
