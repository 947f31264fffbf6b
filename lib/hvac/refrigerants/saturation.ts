import { err, ok, type Result } from "@/lib/result";
import { celsiusToKelvin } from "../units";
import type { Refrigerant } from "./refrigerant";

export type SaturationError =
  | {
      readonly code: "temperature-outside-correlation";
      readonly temperatureK: number;
      readonly fromK: number;
      readonly toK: number;
    }
  | {
      readonly code: "pressure-outside-correlation";
      readonly pressureAbsPa: number;
      readonly fromPa: number;
      readonly toPa: number;
    };

type Line = "bubble" | "dew";

const PRESSURE_POWERS = [1, 1.5, 2, 3, 5] as const;
const LIQUID_POWERS = [0.35, 0.75, 1.2, 2.5] as const;
const VAPOUR_POWERS = [0.4, 0.8, 1.5, 3, 6] as const;

/**
 * Pressure in Pa at which saturated liquid of this temperature begins to boil: for subcooling.
 *
 * ln(p/pr) = (Tr/T) sum n th^t, th = 1 - T/Tr.
 * @returns the pressure, or the range of the correlation
 * @source fitted to the fluid's equation of state, named with its error in the refrigerant's data
 */
export function bubblePressurePa(refrigerant: Refrigerant, temperatureK: number): Result<number, SaturationError> {
  return withinRange(refrigerant, temperatureK, (fluid, atK) => Math.exp(logPressure(fluid, "bubble", atK).value));
}

/** Pressure in Pa at which saturated vapour of this temperature begins to condense: for superheat. */
export function dewPressurePa(refrigerant: Refrigerant, temperatureK: number): Result<number, SaturationError> {
  return withinRange(refrigerant, temperatureK, (fluid, atK) => Math.exp(logPressure(fluid, "dew", atK).value));
}

/** Temperature in K at which liquid of this pressure begins to boil. */
export function bubbleTemperatureK(refrigerant: Refrigerant, pressureAbsPa: number): Result<number, SaturationError> {
  return temperatureOn(refrigerant, "bubble", pressureAbsPa);
}

/** Temperature in K at which vapour of this pressure begins to condense. */
export function dewTemperatureK(refrigerant: Refrigerant, pressureAbsPa: number): Result<number, SaturationError> {
  return temperatureOn(refrigerant, "dew", pressureAbsPa);
}

/** Density of saturated liquid (blends: at the bubble point) in kg/m3. */
export function liquidDensityKgPerM3(refrigerant: Refrigerant, temperatureK: number): Result<number, SaturationError> {
  return withinRange(refrigerant, temperatureK, ({ saturation: fit }, atK) => {
    return fit.reducingKgPerM3 * (1 + powerSum(fit.liquid, LIQUID_POWERS, 1 - atK / fit.reducingK));
  });
}

/** Density of saturated vapour (blends: at the dew point) in kg/m3. */
export function vapourDensityKgPerM3(refrigerant: Refrigerant, temperatureK: number): Result<number, SaturationError> {
  return withinRange(refrigerant, temperatureK, ({ saturation: fit }, atK) => {
    return fit.reducingKgPerM3 * Math.exp(powerSum(fit.vapour, VAPOUR_POWERS, 1 - atK / fit.reducingK));
  });
}

/** Temperatures in K between which the refrigerant's equations may be used. */
export function saturationRangeK({ saturation }: Refrigerant): { readonly fromK: number; readonly toK: number } {
  return { fromK: celsiusToKelvin(saturation.fromC), toK: celsiusToKelvin(saturation.toC) };
}

/** The equation and its largest error, as shown beside a figure it gave. */
export function saturationSource({ saturation: fit }: Refrigerant): string {
  return `short equation fitted to ${fit.equationOfState}; within ${fit.pressureErrorPercent} % from ${fit.fromC} to ${fit.toC} C`;
}

function withinRange(
  refrigerant: Refrigerant,
  temperatureK: number,
  compute: (refrigerant: Refrigerant, temperatureK: number) => number,
): Result<number, SaturationError> {
  const { fromK, toK } = saturationRangeK(refrigerant);
  if (!(temperatureK >= fromK && temperatureK <= toK))
    return err({ code: "temperature-outside-correlation", temperatureK, fromK, toK });
  return ok(compute(refrigerant, temperatureK));
}

/** Newton on ln p against 1/T, where the curve is nearly straight; never leaves the range it starts within. */
function temperatureOn(refrigerant: Refrigerant, line: Line, pressureAbsPa: number): Result<number, SaturationError> {
  const { fromK, toK } = saturationRangeK(refrigerant);
  const lowest = logPressure(refrigerant, line, fromK).value;
  const highest = logPressure(refrigerant, line, toK).value;
  const target = Math.log(pressureAbsPa);
  if (!(target >= lowest && target <= highest)) {
    const range = { fromPa: Math.exp(lowest), toPa: Math.exp(highest) };
    return err({ code: "pressure-outside-correlation", pressureAbsPa, ...range });
  }
  const share = (target - lowest) / (highest - lowest);
  let temperatureK = 1 / (1 / fromK + share * (1 / toK - 1 / fromK));
  for (let step = 0; step < 20; step++) {
    const { value, slopePerK } = logPressure(refrigerant, line, temperatureK);
    const next = 1 / (1 / temperatureK - (target - value) / (slopePerK * temperatureK ** 2));
    const moved = Math.abs(next - temperatureK);
    temperatureK = Math.min(Math.max(next, fromK), toK);
    if (moved < 1e-9) break;
  }
  return ok(temperatureK);
}

function logPressure({ saturation: fit }: Refrigerant, line: Line, temperatureK: number) {
  const n = line === "dew" && fit.dew ? fit.dew : fit.bubble;
  const theta = 1 - temperatureK / fit.reducingK;
  const sum = powerSum(n, PRESSURE_POWERS, theta);
  let slope = 0;
  for (let i = 0; i < n.length; i++) slope += n[i]! * PRESSURE_POWERS[i]! * theta ** (PRESSURE_POWERS[i]! - 1);
  return {
    value: Math.log(fit.reducingPa) + (fit.reducingK / temperatureK) * sum,
    slopePerK: (-fit.reducingK / temperatureK ** 2) * sum - slope / temperatureK,
  };
}

function powerSum(n: readonly number[], powers: readonly number[], theta: number): number {
  let sum = 0;
  for (let i = 0; i < n.length; i++) sum += n[i]! * theta ** powers[i]!;
  return sum;
}
