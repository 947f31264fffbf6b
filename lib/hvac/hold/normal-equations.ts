import { type Contribution, isSigned, priorWeight } from "./contributions";
import type { FitPoint } from "./fit-points";
import type { NormalEquations } from "./least-squares";

/** The equations of a linear model whose columns are given, each point in its own noise, each column scaled to 1. */
export function normalEquations(
  points: readonly FitPoint[],
  contributions: readonly Contribution[],
  columns: readonly (readonly number[])[],
  centrePa: number,
): NormalEquations {
  const off = points.map((point) => (point.pressurePa - centrePa * point.temperatureRatio) / point.sigmaPa);
  const products = columns.map((column, j) => productsOf(column, columns, j + 1));
  const target = productsOf(off, columns, columns.length);
  const scale = products.map((row, j) => {
    row[j]! += priorWeight(contributions[j]!);
    return Math.sqrt(row[j]!) || 1;
  });
  const gram = products.map((row, j) =>
    products.map((other, k) => (k > j ? other[j]! : row[k]!) / (scale[j]! * scale[k]!)),
  );
  return {
    gram,
    target: scale.map((norm, j) => target[j]! / norm),
    targetSquare: productsOf(off, [off], 1)[0]!,
    scale,
    signed: contributions.map(isSigned),
  };
}

/** Inner products of a column with the first of others; four run side by side, since one alone waits for each addition. */
function productsOf(column: readonly number[], others: readonly (readonly number[])[], count: number): number[] {
  const products: number[] = [];
  for (let k = 0; k < count; k += 4) {
    const c0 = others[k]!;
    const c1 = others[k + 1] ?? c0;
    const c2 = others[k + 2] ?? c0;
    const c3 = others[k + 3] ?? c0;
    let s0 = 0;
    let s1 = 0;
    let s2 = 0;
    let s3 = 0;
    for (let i = 0; i < column.length; i++) {
      const value = column[i]!;
      s0 += value * c0[i]!;
      s1 += value * c1[i]!;
      s2 += value * c2[i]!;
      s3 += value * c3[i]!;
    }
    products.push(s0, s1, s2, s3);
  }
  return products;
}
