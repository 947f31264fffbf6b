import type { PressureSeries } from "./series";

/** A jump up that no warming explains: from one reading to another, as their places in the series. */
export interface GasAdded {
  readonly from: number;
  readonly to: number;
}

const WINDOWS_S = [0, 90, 300] as const;
const MEMORY_S = 3600;

/** Looks for nitrogen let in during the test. Null when warming air and noise explain every rise. */
export function findGasAdded(series: PressureSeries, noisePa: number, paPerK: number): GasAdded | null {
  const { timeS, pressureAbsPa } = series;
  let found: GasAdded | null = null;
  let mostPa = 0;
  for (const windowS of WINDOWS_S) {
    // A wider stretch must show clearly more than a narrow one, or the narrow one is where it happened.
    mostPa *= 1.3;
    let to = 0;
    for (let from = 0; from + 1 < timeS.length; from++) {
      to = Math.max(to, from + 1);
      while (to + 1 < timeS.length && timeS[to]! - timeS[from]! < windowS) to++;
      const tookS = timeS[to]! - timeS[from]!;
      const risePa = levelAt(pressureAbsPa, to, 1) - levelAt(pressureAbsPa, from, -1);
      if (risePa < mostPa) continue;
      const warmedK = warmestRiseK(series, from, to) * (1 - Math.exp(-tookS / 60));
      const warmedPa = Math.max(1.1 * paPerK * warmedK, 1.3 * besidePa(series, from, to));
      const excessPa = risePa - warmedPa - 8 * noisePa - 0.0008 * pressureAbsPa[0]!;
      if (from > 0 && excessPa > mostPa) {
        mostPa = excessPa;
        found = { from, to };
      }
    }
  }
  return found;
}

/** Rise over the same time just before or just after, whichever is more: gas that settles goes on rising. */
function besidePa({ timeS, pressureAbsPa }: PressureSeries, from: number, to: number): number {
  const tookS = timeS[to]! - timeS[from]!;
  const riseIn = (start: number, end: number) => {
    const spanS = timeS[end]! - timeS[start]!;
    return spanS > 0 ? ((pressureAbsPa[end]! - pressureAbsPa[start]!) / spanS) * tookS : 0;
  };
  const last = timeS.length - 1;
  return Math.max(riseIn(Math.max(0, 2 * from - to), from), riseIn(to, Math.min(last, 2 * to - from)), 0);
}

/** Middle of up to three readings going one way, so that noise at the edge does not make the jump. */
function levelAt(values: Float64Array, index: number, direction: 1 | -1): number {
  const a = values[index]!;
  const b = values[index + direction] ?? a;
  const c = values[index + 2 * direction] ?? b;
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}

/** How far the air at most rose above what the gas may still remember. */
function warmestRiseK({ timeS, temperatureK }: PressureSeries, from: number, to: number): number {
  let coldest = temperatureK[from]!;
  const stride = Math.max(1, Math.floor(from / 60));
  for (let index = from; index >= 0 && timeS[from]! - timeS[index]! < MEMORY_S; index -= stride)
    coldest = Math.min(coldest, temperatureK[index]!);
  let warmest = temperatureK[to]!;
  for (let index = from; index <= to; index++) warmest = Math.max(warmest, temperatureK[index]!);
  return warmest - coldest;
}

/** Nought before, one after, rising between: gas added as a cause of free size. */
export function stepColumn(series: PressureSeries, { from, to }: GasAdded): Float64Array {
  const start = series.timeS[from]!;
  const span = Math.max(series.timeS[to]! - start, 1e-9);
  return series.timeS.map((time) => Math.min(1, Math.max(0, (time - start) / span)));
}
