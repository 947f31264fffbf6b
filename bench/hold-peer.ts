import type { HoldReading } from "@/lib/hvac";

export interface PlainFit {
  readonly risePaPerS: number;
  readonly fadePa: number;
  readonly tauS: number;
  readonly squares: number;
}

const TAUS_S = Array.from({ length: 24 }, (_, index) => 15 * 1.25 ** index);

/**
 * What a first attempt would be: p = p0 + a t + b (1 - exp(-t/tau)) by ordinary least squares over every reading,
 * the time constant searched on a grid.
 */
export function plainFit(readings: readonly HoldReading[]): PlainFit {
  let best: PlainFit = { risePaPerS: 0, fadePa: 0, tauS: 0, squares: Number.POSITIVE_INFINITY };
  for (const tauS of TAUS_S) {
    const sums = new Float64Array(12);
    for (const { atS, pressureAbsPa } of readings) {
      const row = [1, atS, 1 - Math.exp(-atS / tauS), pressureAbsPa];
      for (let i = 0, at = 0; i < 3; i++) for (let j = 0; j < 4; j++, at++) sums[at]! += row[i]! * row[j]!;
    }
    const [p0, a, b] = solveThree(sums);
    let squares = 0;
    for (const { atS, pressureAbsPa } of readings)
      squares += (pressureAbsPa - p0 - a * atS - b * (1 - Math.exp(-atS / tauS))) ** 2;
    if (squares < best.squares) best = { risePaPerS: a, fadePa: b, tauS, squares };
  }
  return best;
}

/** Gauss elimination of three equations held row by row with their right-hand sides. */
function solveThree(m: Float64Array): [number, number, number] {
  for (let i = 0; i < 3; i++) {
    for (let row = 0; row < 3; row++) {
      if (row === i) continue;
      const factor = m[row * 4 + i]! / m[i * 4 + i]!;
      for (let j = i; j < 4; j++) m[row * 4 + j]! -= factor * m[i * 4 + j]!;
    }
  }
  return [m[3]! / m[0]!, m[7]! / m[5]!, m[11]! / m[10]!];
}
