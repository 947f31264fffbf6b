import { err, ok, type Result } from "@/lib/result";
import type { Refrigerant } from "../refrigerants/refrigerant";
import { liquidDensityKgPerM3, type SaturationError } from "../refrigerants/saturation";
import { CHARGE_SCALE_ACCURACY_KG } from "../rules/charging";

export interface LineSet {
  /** Refrigerant per metre of line, from the unit's own manual. */
  readonly rateKgPerM: number;
  readonly lengthM: number;
  /** What the factory charge already holds for the line: a mass, or the length it was charged for. */
  readonly included: { readonly massKg: number } | { readonly lengthM: number };
  /** Field drier, accumulator and other parts the factory did not charge for. */
  readonly addersKg: readonly number[];
}

export interface ChargePlan {
  /** What goes in beside the factory charge; negative is taken out. */
  readonly adjustmentKg: number;
  readonly totalKg: number;
}

export type ChargePlanError =
  | { readonly code: "factory-charge-not-positive"; readonly factoryChargeKg: number }
  | { readonly code: "line-set-negative"; readonly quantity: "rate" | "length" | "included" | "adder" }
  | { readonly code: "charge-not-positive"; readonly totalKg: number };

/**
 * Charge by weight in kg: factory charge + rate x length - what the factory allowed for the line + adders.
 *
 * A line shorter than a precharged length takes nothing out; against an allowance given as a mass it does.
 * @source makers' split-system instructions; their worked answers stand in the tests
 */
export function planCharge(factoryChargeKg: number, lineSet: LineSet): Result<ChargePlan, ChargePlanError> {
  const { rateKgPerM, lengthM, included, addersKg } = lineSet;
  if (!(factoryChargeKg > 0)) return err({ code: "factory-charge-not-positive", factoryChargeKg });
  if (!(rateKgPerM >= 0)) return err({ code: "line-set-negative", quantity: "rate" });
  if (!(lengthM >= 0)) return err({ code: "line-set-negative", quantity: "length" });
  const includedAmount = "massKg" in included ? included.massKg : included.lengthM;
  if (!(includedAmount >= 0)) return err({ code: "line-set-negative", quantity: "included" });
  if (!addersKg.every((adderKg) => adderKg >= 0)) return err({ code: "line-set-negative", quantity: "adder" });
  const forLineKg =
    "massKg" in included
      ? rateKgPerM * lengthM - included.massKg
      : rateKgPerM * Math.max(0, lengthM - included.lengthM);
  const adjustmentKg = addersKg.reduce((sum, adderKg) => sum + adderKg, forLineKg);
  const totalKg = factoryChargeKg + adjustmentKg;
  if (!(totalKg > 0)) return err({ code: "charge-not-positive", totalKg });
  return ok({ adjustmentKg, totalKg });
}

/** Mass in kg of one metre of line full of saturated liquid: the physical bound on any maker's rate. */
export function liquidFullLineKgPerM(
  refrigerant: Refrigerant,
  innerDiameterM: number,
  temperatureK: number,
): Result<number, SaturationError> {
  const density = liquidDensityKgPerM3(refrigerant, temperatureK);
  return density.ok ? ok((density.value * Math.PI * innerDiameterM ** 2) / 4) : density;
}

export interface WeighedCharge {
  readonly verdict: "as-planned" | "too-little" | "too-much";
  /** Weighed minus planned. */
  readonly differenceKg: number;
}

/** Whether the mass on the scale is the planned one, within what the scale can tell. */
export function judgeWeighedCharge(
  plannedKg: number,
  weighedKg: number,
  toleranceKg: number = CHARGE_SCALE_ACCURACY_KG,
): WeighedCharge {
  const differenceKg = weighedKg - plannedKg;
  if (Math.abs(differenceKg) <= toleranceKg * (1 + 1e-9)) return { verdict: "as-planned", differenceKg };
  return { verdict: differenceKg < 0 ? "too-little" : "too-much", differenceKg };
}
