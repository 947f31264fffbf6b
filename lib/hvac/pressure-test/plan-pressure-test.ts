import { nitrogenPressureAtTemperaturePa } from "../nitrogen";
import { pressurePerKelvin } from "./estimate-leak";

export interface TestInstruments {
  readonly resolutionPa: number;
  readonly temperatureAccuracyK: number;
  /** How far the barometer may move during the hold; 0 where it is read again at the end. */
  readonly barometerPa?: number;
}

/**
 * Smallest pressure change in Pa that gauge, thermometer and barometer together can tell from none.
 * @source root of the sum of squares of resolution, pressure times temperature error, barometer; textbook error propagation
 */
export function smallestPressureChangePa(
  gaugePa: number,
  atmosphericPa: number,
  temperatureK: number,
  { resolutionPa, temperatureAccuracyK, barometerPa = 0 }: TestInstruments,
): number {
  const perKelvinPa = pressurePerKelvin(gaugePa + atmosphericPa, temperatureK);
  return Math.hypot(resolutionPa, perKelvinPa * temperatureAccuracyK, barometerPa);
}

/** Seconds a test must last to show a leak of this many Pa/s once the gas has settled: t = change / leak. */
export function shortestUsefulHoldS(smallestChangePa: number, leakPaPerS: number): number {
  return smallestChangePa / leakPaPerS;
}

/** Smallest leak in Pa m3/s that a settled test of this length can show: Q = V change / t. @source rate of rise, any vacuum textbook */
export function smallestLeakShownPaM3PerS(smallestChangePa: number, internalVolumeM3: number, holdS: number): number {
  return (internalVolumeM3 * smallestChangePa) / holdS;
}

/** Leak in Pa/s that this circuit may have when so many Pa m3/s are allowed. */
export function allowableLeakPaPerS(throughputPaM3PerS: number, internalVolumeM3: number): number {
  return throughputPaM3PerS / internalVolumeM3;
}

/** Coarsest gauge step in Pa that still shows a leak in this time: a third of what it loses, a rule of our own. */
export function coarsestUsefulStepPa(leakPaPerS: number, holdS: number): number {
  return (leakPaPerS * holdS) / 3;
}

/** Gauge pressure in Pa that a tight circuit shows once its gas has come to this temperature: for the live screen. */
export function expectedGaugePa(
  start: { readonly gaugePa: number; readonly temperatureK: number },
  atmosphericPa: number,
  temperatureK: number,
): number {
  const startAbsPa = start.gaugePa + atmosphericPa;
  return nitrogenPressureAtTemperaturePa(startAbsPa, start.temperatureK, temperatureK) - atmosphericPa;
}
