/** The sums of products that the estimate is solved from; causes in the order they are eliminated. */
export interface NormalEquations {
  /** Order: level, further causes, start offset, leak, coupling. Symmetric, row by row. */
  readonly products: Float64Array;
  /** Each cause times the observed. */
  readonly targets: Float64Array;
  readonly observedSquared: number;
}

export interface Solution {
  /** Logarithm of the fit, less what is common to all solutions with the same causes. */
  readonly logFit: number;
  /** Squares left over, in units of the noise. */
  readonly misfit: number;
  readonly coupling: number;
  readonly couplingPrecision: number;
  /** The leak at that coupling, and how it moves with the coupling. */
  readonly leak: number;
  readonly leakSd: number;
  readonly leakPerCoupling: number;
  /** Start offset in K at that coupling and leak, and how it moves with the coupling. */
  readonly offsetK: number;
  readonly offsetPerCoupling: number;
}

const MOST = 8;
const FAINT = 1e-16;
const ROUNDING = 1e-13;
const scratch = new Float64Array(MOST * (MOST + 1));

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let index = 0; index < a.length; index++) sum += a[index]! * b[index]!;
  return sum;
}

export function normalEquations(observed: Float64Array, causes: readonly Float64Array[]): NormalEquations {
  const n = causes.length;
  const products = new Float64Array(n * n);
  const targets = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    targets[i] = dot(causes[i]!, observed);
    for (let j = 0; j <= i; j++) products[j * n + i] = products[i * n + j] = dot(causes[i]!, causes[j]!);
  }
  return { products, targets, observedSquared: dot(observed, observed) };
}

/** Least squares by elimination, with a prior spread on the start offset. */
export function solve(equations: NormalEquations, noisePa: number, offsetSdK: number): Solution {
  const { products, targets, observedSquared } = equations;
  const n = targets.length;
  const width = n + 1;
  const inverse = 1 / noisePa ** 2;
  const a = scratch;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) a[i * width + j] = products[i * n + j]! * inverse;
    a[i * width + n] = targets[i]! * inverse;
  }
  const offset = n - 3;
  const leakRow = (n - 2) * width;
  const last = n - 1;
  a[offset * width + offset]! += 1 / offsetSdK ** 2;
  // Faint beliefs keep this solvable where the causes cannot be told apart, as in air that never changed.
  for (let index = 0; index < last; index++) a[index * width + index]! += FAINT;
  a[last * width + last]! += 1e-6;
  let determinant = 1;
  let explained = 0;
  for (let pivot = 0; pivot < n; pivot++) {
    const at = pivot * width;
    // Causes that are the same but for rounding leave nothing, or less.
    const diagonal = Math.max(a[at + pivot]!, FAINT + ROUNDING * inverse * products[pivot * n + pivot]!);
    a[at + pivot] = diagonal;
    if (pivot < last) determinant *= diagonal;
    explained += a[at + n]! ** 2 / diagonal;
    for (let row = pivot + 1; row < n; row++) {
      const factor = a[row * width + pivot]! / diagonal;
      for (let column = pivot + 1; column <= n; column++) a[row * width + column]! -= factor * a[at + column]!;
    }
  }
  const couplingPrecision = a[last * width + last]!;
  const coupling = a[last * width + n]! / couplingPrecision;
  const misfit = Math.max(0, observedSquared * inverse - explained);
  const leakPrecision = a[leakRow + n - 2]!;
  const leakPerCoupling = -a[leakRow + last]! / leakPrecision;
  const leak = a[leakRow + n]! / leakPrecision + leakPerCoupling * coupling;
  const offsetRow = offset * width;
  const offsetPrecision = a[offsetRow + offset]!;
  const offsetPerCoupling = -(a[offsetRow + n - 2]! * leakPerCoupling + a[offsetRow + last]!) / offsetPrecision;
  return {
    logFit: -0.5 * misfit - 0.5 * Math.log(determinant) - Math.log(offsetSdK),
    misfit,
    coupling,
    couplingPrecision,
    leak,
    leakSd: 1 / Math.sqrt(leakPrecision),
    leakPerCoupling,
    offsetK: (a[offsetRow + n]! - a[offsetRow + n - 2]! * leak - a[offsetRow + last]! * coupling) / offsetPrecision,
    offsetPerCoupling,
  };
}
