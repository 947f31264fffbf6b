import type { Source } from "./rules/source";
import { GAS_CONSTANT_J_PER_MOL_K, STANDARD_ATMOSPHERE_PA } from "./units";

export interface DilutionCycle {
  readonly pullToPa: number;
  readonly breakToPa: number;
}

export interface DilutionPlan {
  /** Share of the gas first in the circuit that is left after each cycle. */
  readonly fractionAfterEach: readonly number[];
  readonly remainingFraction: number;
  /** Dry nitrogen the breaks take altogether. */
  readonly nitrogenKg: number;
}

const NITROGEN_KG_PER_MOL = 0.0280134;

/**
 * What a chain of pulls and nitrogen breaks leaves of the first gas, as a fraction, and the nitrogen it takes.
 *
 * Product of pull/break pressures with ideal mixing. It does nothing for liquid water: that only leaves by
 * evaporating, however often the vacuum is broken.
 * @source gas law; the triple method itself is common practice
 */
export function planDilution(
  cycles: readonly DilutionCycle[],
  internalVolumeM3: number,
  temperatureK: number,
): DilutionPlan {
  const fractionAfterEach: number[] = [];
  let remainingFraction = 1;
  let nitrogenMol = 0;
  for (const { pullToPa, breakToPa } of cycles) {
    if (!(pullToPa > 0 && breakToPa > pullToPa)) throw new RangeError("a break must be above its pull");
    remainingFraction *= pullToPa / breakToPa;
    fractionAfterEach.push(remainingFraction);
    nitrogenMol += ((breakToPa - pullToPa) * internalVolumeM3) / (GAS_CONSTANT_J_PER_MOL_K * temperatureK);
  }
  return { fractionAfterEach, remainingFraction, nitrogenKg: nitrogenMol * NITROGEN_KG_PER_MOL };
}

/** Equal cycles needed to bring the first gas down to a fraction. */
export function cyclesForFraction(fraction: number, { pullToPa, breakToPa }: DilutionCycle): number {
  return Math.max(0, Math.ceil(Math.log(fraction) / Math.log(pullToPa / breakToPa) - 1e-9));
}

/** Customary pulls of a triple evacuation before the last one. @source common practice */
export const TRIPLE_EVACUATION = {
  cycles: 3,
  firstPullPa: 200,
  breakToPa: STANDARD_ATMOSPHERE_PA * 1.02,
  source: "common practice: pull to 1 000 to 2 000 micron, break slightly above the atmosphere",
  mark: "common-practice",
} as const satisfies Source & Readonly<Record<string, unknown>>;

/** Oil is changed after this much running, or at once after a wet or contaminated circuit. */
export const PUMP_OIL_LIFE = {
  runningS: 10 * 3600,
  source: "handbook page on service procedures",
  mark: "secondary",
} as const satisfies Source & { readonly runningS: number };
/** A pump alone on its gauge should pull well below any target. @source common practice: 50 to 100 micron */
const WORN_BLANK_OFF_PA = 13.3322368421;

export interface PumpOil {
  readonly runningSinceChangeS: number;
  readonly wetOrContaminatedSinceChange: boolean;
  readonly look: "fresh" | "clear" | "cloudy" | "dark" | "not-looked";
  /** What the pump reached alone on its gauge; null where it was not tried. */
  readonly blankOffPa: number | null;
}

export interface PumpOilJudgement {
  readonly verdict: "fit" | "change-now";
  readonly remainingS: number;
  readonly reasons: readonly {
    readonly code: "life-used-up" | "wet-circuit" | "cloudy" | "dark" | "weak-blank-off" | "within-life";
    readonly text: string;
  }[];
}

/** Whether the pump's oil may be trusted for the next pull. */
export function judgePumpOil(oil: PumpOil): PumpOilJudgement {
  const remainingS = Math.max(0, PUMP_OIL_LIFE.runningS - oil.runningSinceChangeS);
  const reasons: { code: PumpOilJudgement["reasons"][number]["code"]; text: string }[] = [];
  if (oil.wetOrContaminatedSinceChange)
    reasons.push({ code: "wet-circuit", text: "It has pumped a wet or contaminated circuit: change it while warm." });
  if (oil.look === "cloudy") reasons.push({ code: "cloudy", text: "Milky oil holds water: change it." });
  if (oil.look === "dark") reasons.push({ code: "dark", text: "Dark oil is worn or acid: change it." });
  if (remainingS === 0) reasons.push({ code: "life-used-up", text: "Ten hours of running are up: change the oil." });
  if (oil.blankOffPa !== null && oil.blankOffPa > WORN_BLANK_OFF_PA)
    reasons.push({
      code: "weak-blank-off",
      text: "Alone on its gauge the pump stays above 100 micron: change the oil.",
    });
  if (reasons.length > 0) return { verdict: "change-now", remainingS, reasons };
  return { verdict: "fit", remainingS, reasons: [{ code: "within-life", text: "The oil is within its life." }] };
}
