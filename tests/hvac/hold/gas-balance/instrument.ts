import type { Dice } from "./dice";

/** A gauge with habits of its own, and how somebody logs it. */
export interface Instrument {
  gain: number;
  offsetMicron: number;
  /** The reading follows the pressure with this lag. */
  lagS: number;
  /** Scatter: a floor, a share of the reading, and how much of it stays to the next second. */
  floorMicron: number;
  share: number;
  stays: number;
  /** One reading in so many hundred scatters four times as much. */
  rough: number;
  /** Slow change of the gain, a share an hour. */
  driftPerHour: number;
  stepMicron: number;
  /** Above each of these the step is as many times coarser as the second number says. */
  coarser: readonly (readonly [fromMicron: number, times: number])[];
  /** Most displays round, some cut off. */
  cutsOff: boolean;
  spikes: number;
  stuckFromS: number;
}

/** Readings at these times, in micron as displayed. */
export function displayed(dice: Dice, pressure: Float64Array, times: readonly number[], gauge: Instrument): number[] {
  const seen = new Float64Array(pressure.length);
  let follows = pressure[0]!;
  let noise = dice.normal();
  for (let s = 0; s < pressure.length; s++) {
    follows += (pressure[s]! - follows) * -Math.expm1(-1 / Math.max(gauge.lagS, 0.05));
    noise = gauge.stays * noise + Math.sqrt(1 - gauge.stays ** 2) * dice.normal();
    const wide = dice.happens(gauge.rough / 100) ? 4 : 1;
    const scatter = Math.hypot(gauge.floorMicron, gauge.share * follows) * noise * wide;
    seen[s] = follows * gauge.gain * (1 + (gauge.driftPerHour * s) / 3600) + gauge.offsetMicron + scatter;
  }
  let stuck: number | null = null;
  return times.map((atS) => {
    const value = seen[Math.min(Math.round(atS), seen.length - 1)]!;
    const times = gauge.coarser.reduce((most, [from, coarse]) => (value >= from ? coarse : most), 1);
    const step = gauge.stepMicron * times;
    const steps = gauge.cutsOff ? Math.floor(value / step + 1e-9) : Math.round(value / step);
    let shown = Math.max(0, steps * step);
    if (atS >= gauge.stuckFromS) {
      stuck ??= shown;
      shown = stuck;
    }
    if (!dice.happens(gauge.spikes)) return shown;
    return dice.oneOf([0, 760_000, Math.min(760_000, 10 * shown)]);
  });
}

export function anyInstrument(dice: Dice, accuracy: number): Instrument {
  return {
    gain: 1 + accuracy * dice.between(-0.8, 0.8),
    offsetMicron: dice.oneOf([0, 0, dice.between(-3, 3)]),
    lagS: dice.oneOf([0, 1, 3, 6]),
    floorMicron: dice.oneOf([0, 0.2, 0.7, 1.5]),
    share: dice.oneOf([0, 0.0003, 0.001, 0.003]),
    stays: dice.oneOf([0, 0, 0.4, 0.8]),
    rough: dice.oneOf([0, 0, 1, 3]),
    driftPerHour: dice.between(-0.01, 0.01),
    stepMicron: dice.oneOf([0.1, 0.1, 1, 1, 1, 2, 5]),
    coarser: dice.oneOf([
      [],
      [[1000, 10]],
      [[1000, 5]],
      [
        [2000, 5],
        [5000, 25],
      ],
      [
        [1000, 10],
        [10_000, 50],
      ],
    ] as const),
    cutsOff: dice.happens(0.2),
    spikes: dice.oneOf([0, 0, 0, 0.003]),
    stuckFromS: Number.POSITIVE_INFINITY,
  };
}
