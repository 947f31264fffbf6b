import { type SmoothAir, smoothAir } from "./smooth-air";

/** How far the expected gas temperature may be off because the thermometer is: its size, and how long it lasts. */
export interface ThermometerError {
  readonly sdK: number;
  readonly fadeS: number;
}

export interface AirHistory extends SmoothAir {
  /** Error of the air once a lag has averaged it. */
  readonly errorAtLag: (lagS: number) => ThermometerError;
}

/** Smoothed air is worst known at the ends of the record, where the leak shows most. */
const ENDS = 1.6;

/**
 * The air as the thermometer shows it. Scatter averages out over lag and smoothing; the display's rounding only over as
 * many of its steps as the air crossed meanwhile.
 */
export function readAir(timeS: Float64Array, shownK: Float64Array): AirHistory {
  const roundingK = displayStepK(shownK) / Math.sqrt(12);
  const air = smoothAir(timeS, shownK, roundingK);
  const spanS = Math.max(timeS[timeS.length - 1]! - timeS[0]!, 1);
  let crossings = 0;
  for (let index = 1; index < shownK.length; index++) if (shownK[index] !== shownK[index - 1]) crossings++;
  const stepS = spanS / (crossings + 1);
  const errorAtLag = (lagS: number) => {
    const scatterVariance = (air.errorK ** 2 * air.overS) / (air.overS + 2 * lagS);
    const roundingVariance = roundingK ** 2 * Math.min(1, stepS / (air.overS + 2 * lagS));
    const betweenVariance = (air.betweenK ** 2 * air.everyS) / (air.everyS + 2 * lagS);
    return {
      sdK: ENDS * Math.sqrt(scatterVariance + roundingVariance + betweenVariance),
      fadeS: lagS + (air.overS + stepS) / 3,
    };
  };
  return { ...air, errorAtLag };
}

/** The smallest difference between temperatures shown; a display that never moved is taken to show 0.1 K. */
function displayStepK(shownK: Float64Array): number {
  const sorted = Float64Array.from(shownK).sort();
  let least = 1;
  let moved = false;
  for (let index = 1; index < sorted.length; index++) {
    const gap = sorted[index]! - sorted[index - 1]!;
    if (gap < 1e-6) continue;
    least = Math.min(least, gap);
    moved = true;
  }
  return moved ? least : 0.1;
}
