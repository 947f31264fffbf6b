import type { Draw } from "./random";

export interface GaugeHabits {
  gain: number;
  scatterMicron: number;
  scatterShare: number;
  /** Slow wander, share of the reading per minute. */
  wanderPerMin: number;
  resolutionMicron: number;
  /** Steps ten times coarser from each of these pressures on. */
  coarserFrom: readonly number[];
  strayShare: number;
  stuckFromS: number;
}

/** The gauge's readings of a true curve at the given seconds. */
export function readGauge(draw: Draw, truth: Float64Array, times: readonly number[], habits: GaugeHabits): number[] {
  let held: number | undefined;
  return times.map((s) => {
    if (held !== undefined && s >= habits.stuckFromS) return held;
    const index = Math.min(Math.floor(s), truth.length - 1);
    const after = truth[Math.min(index + 1, truth.length - 1)]!;
    const actual = truth[index]! + (after - truth[index]!) * (s - index);
    const scatter = Math.hypot(habits.scatterMicron, habits.scatterShare * actual) * draw.normal();
    const shown = actual * habits.gain * (1 + (habits.wanderPerMin * s) / 60) + scatter;
    let step = habits.resolutionMicron;
    for (const from of habits.coarserFrom) if (shown >= from) step *= 10;
    const rounded = Math.max(0, Math.round(shown / step) * step);
    held = rounded;
    if (!draw.chance(habits.strayShare)) return rounded;
    const stray = draw.pick([0, 760_000, rounded * 10]);
    return Math.min(stray, 760_000);
  });
}
