import type { Observations } from "./observations";
import type { PressureSeries } from "./series";

/** How a leak's flow falls with the pressure: steady, choked through a hole, viscous through a fine crack. */
export type LeakFlow = "steady" | "choked" | "viscous";

/**
 * The air's departure from its first reading in K, as gas with this lag follows it; averaged over each observation.
 * First-order lag, exact for air that changes in straight lines between readings.
 */
export function followedAirK(series: PressureSeries, observations: Observations, lagS: number): Float64Array {
  const { timeS, temperatureK } = series;
  const followed = new Float64Array(timeS.length);
  let stepS = -1;
  let kept = 1;
  let ramp = 0;
  for (let index = 1; index < timeS.length; index++) {
    const thisStepS = timeS[index]! - timeS[index - 1]!;
    if (thisStepS !== stepS) {
      stepS = thisStepS;
      kept = Math.exp(-stepS / lagS);
      // Between readings far closer than the lag the difference below would be rounding, or no number at all.
      ramp = stepS > 1e-6 * lagS ? 1 - (lagS / stepS) * (1 - kept) : stepS / (2 * lagS);
    }
    const before = temperatureK[index - 1]! - temperatureK[0]!;
    const now = temperatureK[index]! - temperatureK[0]!;
    followed[index] = kept * followed[index - 1]! + (1 - kept) * before + ramp * (now - before);
  }
  return averaged(followed, observations);
}

/** What is left at each observation of 1 K that the gas was off at the first reading. */
export function settlingShare(series: PressureSeries, observations: Observations, lagS: number): Float64Array {
  return averaged(
    series.timeS.map((time) => Math.exp(-time / lagS)),
    observations,
  );
}

/** Averages per observation, by running sums. */
export function averaged(values: Float64Array, { from, to }: Observations): Float64Array {
  const sums = new Float64Array(values.length + 1);
  for (let index = 0; index < values.length; index++) sums[index + 1] = sums[index]! + values[index]!;
  const means = new Float64Array(from.length);
  for (let index = 0; index < from.length; index++)
    means[index] = (sums[to[index]! + 1]! - sums[from[index]!]!) / (to[index]! + 1 - from[index]!);
  return means;
}

/** Seconds at full flow that a leak has had by each reading, given how far the pressure has already fallen. */
export function leakedSeconds(series: PressureSeries, atmosphericPa: number, flow: LeakFlow): Float64Array {
  const { timeS, pressureAbsPa } = series;
  const leaked = new Float64Array(timeS.length);
  const startPa = pressureAbsPa[0]!;
  const startSquared = Math.max(startPa ** 2 - atmosphericPa ** 2, 1e-3 * startPa ** 2);
  for (let index = 1; index < timeS.length; index++) {
    const meanPa = (pressureAbsPa[index]! + pressureAbsPa[index - 1]!) / 2;
    let share = 1;
    if (flow === "choked") share = meanPa / startPa;
    if (flow === "viscous") share = Math.max(0, meanPa ** 2 - atmosphericPa ** 2) / startSquared;
    leaked[index] = leaked[index - 1]! + share * (timeS[index]! - timeS[index - 1]!);
  }
  return leaked;
}
