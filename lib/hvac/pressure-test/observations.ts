import type { PressureSeries } from "./series";

/** A pressure and the stretch of readings it stands for; its variance is given as a multiple of the base variance. */
export interface Observations {
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly pressureAbsPa: Float64Array;
  readonly relativeVariance: Float64Array;
  /** Standard deviation in Pa of one reading, as far as the record shows it. */
  readonly noisePa: number;
  /** How well the record itself shows that noise; a hand log hardly does. */
  readonly noiseKnown: boolean;
}

const MOST_BINS = 140;
const PIECES = 3;
/** A display that changes at more than this share of the readings rounds each of them anew. */
const MOVING = 0.5;
/** A value rounded to a step is spread evenly over it: step / sqrt(12). */
const ROUNDING = 1 / Math.sqrt(12);

/**
 * Condenses the readings. Where noise shakes the display over its steps, averages; where the display stands still between
 * steps, the moments at which it changes, because a thousand equal readings say no more than two.
 */
export function observe(series: PressureSeries, resolutionPa: number): Observations {
  const roundingPa = Math.max(resolutionPa * ROUNDING, 10);
  const shakePa = secondDifferencePa(series);
  const count = series.pressureAbsPa.length;
  const stands = count > 12 && shakePa !== null && shakePa < 1.15 * roundingPa && changes(series) < MOVING * count;
  if (stands) return steps(series, resolutionPa, roundingPa);
  const noiseKnown = count > 30 && shakePa !== null;
  return bins(series, noiseKnown ? Math.max(shakePa, roundingPa) : 1.8 * roundingPa, noiseKnown);
}

function changes({ pressureAbsPa }: PressureSeries): number {
  return pressureAbsPa.reduce((sum, pa, index) => sum + (index > 0 && pa !== pressureAbsPa[index - 1] ? 1 : 0), 0);
}

/** Standard deviation of one reading from the bend of each three in a row: slow changes drop out, so do the few sharpest. */
function secondDifferencePa({ timeS, pressureAbsPa }: PressureSeries): number | null {
  const squares: number[] = [];
  for (let index = 1; index + 1 < pressureAbsPa.length; index++) {
    const before = timeS[index]! - timeS[index - 1]!;
    const after = timeS[index + 1]! - timeS[index]!;
    if (!(before > 0 && after > 0)) continue;
    const share = before / (before + after);
    const bend = pressureAbsPa[index]! - (1 - share) * pressureAbsPa[index - 1]! - share * pressureAbsPa[index + 1]!;
    squares.push(bend ** 2 / (1 + share ** 2 + (1 - share) ** 2));
  }
  if (squares.length === 0) return null;
  squares.sort((a, b) => a - b);
  const kept =
    squares.length > 20 ? squares.slice(0, Math.min(squares.length - 3, Math.ceil(squares.length * 0.98))) : squares;
  return Math.sqrt(kept.reduce((sum, square) => sum + square, 0) / kept.length);
}

function bins({ pressureAbsPa }: PressureSeries, noisePa: number, noiseKnown: boolean): Observations {
  const count = pressureAbsPa.length;
  const size = Math.ceil(count / MOST_BINS);
  const bins = Math.ceil(count / size);
  const from = new Int32Array(bins);
  const to = new Int32Array(bins);
  const means = new Float64Array(bins);
  const relativeVariance = new Float64Array(bins);
  for (let bin = 0; bin < bins; bin++) {
    const start = bin * size;
    const end = Math.min(start + size, count);
    let sum = 0;
    for (let index = start; index < end; index++) sum += pressureAbsPa[index]!;
    from[bin] = start;
    to[bin] = end - 1;
    means[bin] = sum / (end - start);
    relativeVariance[bin] = 1 / (end - start);
  }
  return { from, to, pressureAbsPa: means, relativeVariance, noisePa, noiseKnown };
}

function steps({ pressureAbsPa }: PressureSeries, resolutionPa: number, roundingPa: number): Observations {
  const seen: { from: number; to: number; pressure: number; variance: number }[] = [];
  const count = pressureAbsPa.length;
  const roundingVariance = roundingPa ** 2;
  const end = (index: number) =>
    seen.push({ from: index, to: index, pressure: pressureAbsPa[index]!, variance: roundingVariance });
  // A display that stands still for long says at every moment that the pressure is within its step.
  const standing = (from: number, to: number) => {
    const pieces = Math.floor((PIECES * (to - from + 1)) / count);
    for (let piece = 0; piece < pieces; piece++) {
      const start = from + Math.floor(((to - from) * piece) / pieces);
      const stop = from + Math.floor(((to - from) * (piece + 1)) / pieces);
      seen.push({ from: start, to: stop, pressure: pressureAbsPa[from]!, variance: roundingVariance });
    }
  };
  end(0);
  let runStart = 0;
  for (let index = 1; index < count; index++) {
    const jump = Math.abs(pressureAbsPa[index]! - pressureAbsPa[index - 1]!);
    if (jump === 0) continue;
    standing(runStart, index - 1);
    const pressure = (pressureAbsPa[index]! + pressureAbsPa[index - 1]!) / 2;
    const drift = resolutionPa / Math.max(index - runStart, 1);
    const variance =
      (0.2 * resolutionPa) ** 2 + (Math.min(drift, resolutionPa) * ROUNDING) ** 2 + (0.3 * (jump - resolutionPa)) ** 2;
    // The display going to and fro over one edge is one crossing, seen several times.
    const before = seen[seen.length - 1]!;
    if (seen.length > 1 && before.pressure === pressure) before.to = index;
    else seen.push({ from: index - 1, to: index, pressure, variance });
    runStart = index;
  }
  standing(runStart, count - 1);
  end(count - 1);
  const kept = thin(seen);
  return {
    from: Int32Array.from(kept, (item) => item.from),
    to: Int32Array.from(kept, (item) => item.to),
    pressureAbsPa: Float64Array.from(kept, (item) => item.pressure),
    relativeVariance: Float64Array.from(kept, (item) => item.variance / roundingVariance),
    noisePa: roundingPa,
    noiseKnown: true,
  };
}

function thin<T>(items: readonly T[]): readonly T[] {
  const every = Math.ceil(items.length / MOST_BINS);
  return every === 1 ? items : items.filter((_, index) => index % every === 0 || index === items.length - 1);
}
