/** The air as the readings best tell it, and how well they do. */
export interface SmoothAir {
  readonly temperatureK: Float64Array;
  /** Standard deviation of what is left, averaged over the record. */
  readonly errorK: number;
  /** Time over which neighbouring readings were averaged. */
  readonly overS: number;
  /** How far air that bends from reading to reading strays from the straight line between them, and their distance. */
  readonly betweenK: number;
  readonly everyS: number;
  /** Standard deviation of the slope of the whole, in K/s. */
  readonly slopeErrorKPerS: number;
}

const FEWEST = 6;
const STIFFNESSES = 9;
/** Of what foretells the readings nearly as well as the best, the stiffest is taken: bends not needed are scatter. */
const DOUBT = 1;
/** Thermometers scatter by a few hundredths of a kelvin, some by some tenths. */
const USUAL_SCATTER_K = 0.06;
const SCATTER_SPREAD = 0.8;
const LEAST_SCATTER_K = 0.002;

/**
 * Air temperatures with the thermometer's scatter averaged out, as far as the air itself does not change meanwhile.
 *
 * What is left in error must not depend on what is kept, or gas that follows the air closely looks worse than gas that
 * hardly follows, and a leak is feigned. So the air is taken for a random walk, or one whose slope walks, of every
 * stiffness, and how well each foretells the readings decides.
 * @source Whittaker smoothing with the stiffness by marginal likelihood, any textbook on smoothing splines
 */
export function smoothAir(timeS: Float64Array, shownK: Float64Array, roundingK: number): SmoothAir {
  const count = shownK.length;
  const everyS = (timeS[count - 1]! - timeS[0]!) / (count - 1);
  if (count < FEWEST || !(everyS > 0))
    return {
      temperatureK: shownK,
      errorK: Math.max(roundingK, 0.05),
      overS: 0,
      betweenK: betweenK(shownK),
      everyS,
      slopeErrorKPerS: 0,
    };
  const line = straightLine(timeS, shownK);
  const bent = shownK.map((shown, index) => shown - line[index]!);
  // A display that stands between its steps repeats its own error: such readings count once a step.
  let crossings = 0;
  for (let index = 1; index < count; index++) if (shownK[index] !== shownK[index - 1]) crossings++;
  const share = Math.min(1, (3 * (crossings + 1)) / count);
  const leastK = Math.max(roundingK, LEAST_SCATTER_K);
  const tried = [1, 2].flatMap((order) => {
    const penalties = penaltyRows(timeS, everyS, order);
    return Array.from({ length: STIFFNESSES }, (_, index) => {
      const reach = 0.4 * (1.25 * count) ** (index / (STIFFNESSES - 1));
      return smoothed(bent, penalties, reach ** (2 * order), leastK);
    });
  });
  const weights = tried.map(({ logEvidence, logUsual }) => share * logEvidence + logUsual);
  const most = Math.max(...weights);
  const stiffest = tried
    .filter((_, index) => most - weights[index]! < DOUBT)
    .reduce((a, b) => (b.kept < a.kept ? b : a));
  const temperatureK = stiffest.smooth.map((value, index) => value + line[index]!);
  return {
    temperatureK,
    betweenK: betweenK(temperatureK),
    everyS,
    slopeErrorKPerS: (stiffest.scatterK * Math.sqrt(12 / (share * count))) / (everyS * count),
    errorK: stiffest.scatterK * Math.sqrt(stiffest.kept),
    overS: everyS / stiffest.kept,
  };
}

/** Of a random walk seen at intervals: the mean square of its bends is 24 times that of its straying in between. */
function betweenK(temperatureK: Float64Array): number {
  let squares = 0;
  for (let index = 1; index + 1 < temperatureK.length; index++)
    squares += (temperatureK[index - 1]! - 2 * temperatureK[index]! + temperatureK[index + 1]!) ** 2;
  return Math.sqrt(squares / Math.max(temperatureK.length - 2, 1) / 24);
}

/** The rows of a difference operator of first or second order, weighted for uneven steps; three numbers a row. */
function penaltyRows(timeS: Float64Array, everyS: number, order: number): Float64Array {
  const rows = Math.max(timeS.length - order, 0);
  const weights = new Float64Array(3 * rows);
  const step = (index: number) => Math.max((timeS[index + 1]! - timeS[index]!) / everyS, 1e-3);
  for (let row = 0; row < rows; row++) {
    if (order === 1) {
      const scale = 1 / Math.sqrt(step(row));
      weights.set([-scale, scale, 0], 3 * row);
    } else {
      const first = step(row);
      const second = step(row + 1);
      const scale = 1 / Math.sqrt((first + second) / 2);
      weights.set([scale / first, -scale / first - scale / second, scale / second], 3 * row);
    }
  }
  return weights;
}

/** Solves (1 + stiffness D'D) x = y by a banded Cholesky factor; the evidence has the scatter at its likeliest. */
function smoothed(y: Float64Array, penalties: Float64Array, stiffness: number, leastK: number) {
  const count = y.length;
  const rows = penalties.length / 3;
  const main = new Float64Array(count).fill(1);
  const next = new Float64Array(count);
  const after = new Float64Array(count);
  for (let row = 0; row < rows; row++) {
    const a = penalties[3 * row]!;
    const b = penalties[3 * row + 1]!;
    const c = penalties[3 * row + 2]!;
    main[row]! += stiffness * a * a;
    main[row + 1]! += stiffness * b * b;
    next[row]! += stiffness * a * b;
    if (c === 0) continue;
    main[row + 2]! += stiffness * c * c;
    next[row + 1]! += stiffness * b * c;
    after[row]! += stiffness * a * c;
  }
  const smooth = Float64Array.from(y);
  let logDeterminant = 0;
  for (let index = 0; index < count; index++) {
    const pivot = main[index]!;
    logDeterminant += Math.log(pivot);
    const one = next[index]! / pivot;
    const two = after[index]! / pivot;
    if (index + 1 < count) {
      main[index + 1]! -= one * next[index]!;
      next[index + 1]! -= one * after[index]!;
      smooth[index + 1]! -= one * smooth[index]!;
    }
    if (index + 2 < count) {
      main[index + 2]! -= two * after[index]!;
      smooth[index + 2]! -= two * smooth[index]!;
    }
    next[index] = one;
    after[index] = two;
    smooth[index]! /= pivot;
  }
  for (let index = count - 2; index >= 0; index--)
    smooth[index]! -= next[index]! * smooth[index + 1]! + after[index]! * (smooth[index + 2] ?? 0);
  let misfit = 0;
  for (let index = 0; index < count; index++) misfit += y[index]! * (y[index]! - smooth[index]!);
  const scatterK = Math.max(Math.sqrt(Math.max(misfit, 0) / rows), leastK);
  const logEvidence =
    0.5 * (rows * Math.log(stiffness) - logDeterminant - misfit / scatterK ** 2) - rows * Math.log(scatterK);
  const logUsual = -0.5 * (Math.max(0, Math.log(scatterK / USUAL_SCATTER_K)) / SCATTER_SPREAD) ** 2;
  return { smooth, scatterK, logEvidence, logUsual, kept: meanVariance(main, next, after) };
}

/** Mean of the inverse's diagonal, from the factor, backwards. @source Hutchinson and de Hoog, Numer. Math. 47 (1985) 99 */
function meanVariance(pivots: Float64Array, next: Float64Array, after: Float64Array): number {
  const count = pivots.length;
  let sum = 0;
  // Inverse entries of the row below: its diagonal and its two neighbours to the right.
  let diagonal1 = 0;
  let beside1 = 0;
  let diagonal2 = 0;
  for (let index = count - 1; index >= 0; index--) {
    const one = index + 1 < count ? next[index]! : 0;
    const two = index + 2 < count ? after[index]! : 0;
    const beside = -one * diagonal1 - two * beside1;
    const beyond = -one * beside1 - two * diagonal2;
    const diagonal = 1 / pivots[index]! - one * beside - two * beyond;
    sum += diagonal;
    diagonal2 = diagonal1;
    diagonal1 = diagonal;
    beside1 = beside;
  }
  return sum / count;
}

function straightLine(timeS: Float64Array, values: Float64Array): Float64Array {
  const count = values.length;
  const mean = (of: Float64Array) => of.reduce((sum, value) => sum + value, 0) / count;
  const middleS = mean(timeS);
  const middle = mean(values);
  let product = 0;
  let square = 0;
  for (let index = 0; index < count; index++) {
    product += (timeS[index]! - middleS) * (values[index]! - middle);
    square += (timeS[index]! - middleS) ** 2;
  }
  const slope = product / square;
  return timeS.map((time) => middle + slope * (time - middleS));
}
