/** Ice, liquid water and their vapour: what a vacuum gauge stalls at while the circuit is wet. */

export type WaterPhase = "ice" | "liquid";

/** @source IAPWS R14-08 (2011); the pressure is the one its equation 6 reduces by */
export const WATER_TRIPLE_POINT = { temperatureK: 273.16, pressurePa: 611.657 } as const;
/** @source IAPWS R2-83 (1992) */
export const WATER_CRITICAL_POINT = { temperatureK: 647.096, pressurePa: 22_064_000 } as const;
/** The coldest temperature the ice equation covers. @source IAPWS R14-08 (2011), section 3 */
export const COLDEST_ICE_K = 50;

/** 0.01 C in kelvin is a rounding error below 273.16; it counts as the triple point. */
const LIQUID_FROM_K = WATER_TRIPLE_POINT.temperatureK - 1e-9;
const ICE_A = [-21.2144006, 27.3203819, -6.1059813] as const;
const ICE_B = [0.00333333333, 1.20666667, 1.70333333] as const;
const LIQUID_A = [-7.85951783, 1.84408259, -11.7866497, 22.6807411, -15.9618719, 1.80122502] as const;
const LIQUID_E = [1, 1.5, 3, 3.5, 4, 7.5] as const;

/** The stable condensed phase; at the triple point itself, liquid. */
export function waterPhase(temperatureK: number): WaterPhase {
  return temperatureK < LIQUID_FROM_K ? "ice" : "liquid";
}

/**
 * Vapour pressure in Pa over ice (50 K to the triple point) or liquid water (up to the critical point).
 *
 * @throws RangeError outside 50 to 647.096 K: the edge refuses such a temperature long before
 * @source ice: IAPWS R14-08 (2011) equation 6; liquid: IAPWS SR1-86 (1992) equation 1
 */
export function saturationPressurePa(temperatureK: number): number {
  if (!(temperatureK >= COLDEST_ICE_K && temperatureK <= WATER_CRITICAL_POINT.temperatureK))
    throw new RangeError(`no water saturation at ${temperatureK} K`);
  return temperatureK < LIQUID_FROM_K
    ? WATER_TRIPLE_POINT.pressurePa * Math.exp(iceCurve(temperatureK).logPressure)
    : WATER_CRITICAL_POINT.pressurePa * Math.exp(liquidCurve(temperatureK).logPressure);
}

/** Slope dp/dT of the saturation curve in Pa/K; same range and sources as the pressure. */
export function saturationSlopePaPerK(temperatureK: number): number {
  const curve = temperatureK < LIQUID_FROM_K ? iceCurve : liquidCurve;
  return saturationPressurePa(temperatureK) * curve(temperatureK).slopePerK;
}

/**
 * Temperature in K at which water vapour of this pressure is saturated: the inverse of `saturationPressurePa`.
 *
 * Newton on ln p against 1/T, where the curve is nearly a straight line.
 * @throws RangeError for a pressure that no temperature from 120 K to the critical point gives (below 1e-11 Pa)
 */
export function saturationTemperatureK(pressurePa: number): number {
  const { temperatureK: tripleK, pressurePa: triplePa } = WATER_TRIPLE_POINT;
  if (!(pressurePa > 1e-11 && pressurePa <= WATER_CRITICAL_POINT.pressurePa))
    throw new RangeError(`no water saturation at ${pressurePa} Pa`);
  const frozen = pressurePa < triplePa;
  const curve = frozen ? iceCurve : liquidCurve;
  const target = Math.log(pressurePa / (frozen ? triplePa : WATER_CRITICAL_POINT.pressurePa));
  let temperatureK = frozen ? tripleK : Math.min(WATER_CRITICAL_POINT.temperatureK, 373);
  for (let step = 0; step < 30; step++) {
    const { logPressure, slopePerK } = curve(temperatureK);
    const inverseStep = (target - logPressure) / (slopePerK * temperatureK ** 2);
    const next = Math.min(1 / (1 / temperatureK - inverseStep), WATER_CRITICAL_POINT.temperatureK);
    const moved = Math.abs(next - temperatureK);
    temperatureK = next;
    if (moved < 1e-10 * temperatureK) break;
  }
  return temperatureK;
}

function iceCurve(temperatureK: number) {
  const theta = temperatureK / WATER_TRIPLE_POINT.temperatureK;
  let sum = 0;
  let slope = 0;
  for (let i = 0; i < ICE_A.length; i++) {
    const power = ICE_B[i]! - 1;
    const term = ICE_A[i]! * theta ** power;
    sum += term;
    slope += (term * power) / theta;
  }
  return { logPressure: sum, slopePerK: slope / WATER_TRIPLE_POINT.temperatureK };
}

function liquidCurve(temperatureK: number) {
  const { temperatureK: criticalK } = WATER_CRITICAL_POINT;
  const v = 1 - temperatureK / criticalK;
  let sum = 0;
  let slope = 0;
  for (let i = 0; i < LIQUID_A.length; i++) {
    const lower = LIQUID_A[i]! * v ** (LIQUID_E[i]! - 1);
    sum += lower * v;
    slope += LIQUID_E[i]! * lower;
  }
  return {
    logPressure: (criticalK / temperatureK) * sum,
    slopePerK: -(criticalK / temperatureK ** 2) * sum - slope / temperatureK,
  };
}
