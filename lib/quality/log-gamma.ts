const HALF_LOG_TWO_PI = 0.9189385332046727;
/** From here on the asymptotic series below is exact to the last bits. */
const SERIES_FROM = 15;

/** Natural logarithm of the gamma function, for x > 0. */
export function logGamma(x: number): number {
  if (x >= SERIES_FROM) return (x - 0.5) * Math.log(x) - x + HALF_LOG_TWO_PI + stirlingRemainder(x);
  let product = 1;
  let shifted = x;
  for (; shifted < SERIES_FROM; shifted++) product *= shifted;
  return (
    (shifted - 0.5) * Math.log(shifted) - shifted + HALF_LOG_TWO_PI + stirlingRemainder(shifted) - Math.log(product)
  );
}

/**
 * What Stirling's formula for log x! leaves out, for x > 0.
 * @source Loader, Fast and accurate computation of binomial probabilities (2000), section 3
 */
export function stirlingError(x: number): number {
  if (x >= SERIES_FROM) return stirlingRemainder(x);
  return logGamma(x) - (x - 0.5) * Math.log(x) + x - HALF_LOG_TWO_PI;
}

/** @source Abramowitz and Stegun (1964), 6.1.41 */
export function stirlingRemainder(x: number): number {
  const square = x * x;
  let sum = 1 / 156;
  for (const term of [-691 / 360360, 1 / 1188, -1 / 1680, 1 / 1260, -1 / 360, 1 / 12]) sum = term + sum / square;
  return sum / x;
}

/**
 * a(a+1)...(a+count-1) over a to the power count, as a logarithm; keeps its digits where a is far above count.
 * @param count a whole number
 */
export function logRelativeRise(a: number, count: number): number {
  let sum = 0;
  let from = 0;
  for (; from < count && a + from < SERIES_FROM; from++) sum += Math.log1p(from / a);
  const left = count - from;
  if (left === 0) return sum;
  const base = a + from;
  const growth = Math.log1p(left / base);
  const tail = (base + left - 0.5) * growth - left + stirlingRemainder(base + left) - stirlingRemainder(base);
  return sum + left * Math.log1p(from / a) + tail;
}

/** 1/a + 1/(a+1) + ... of `count` terms: the rise of the digamma function. */
export function digammaRise(a: number, count: number): number {
  let sum = 0;
  let from = 0;
  for (; from < count && a + from < SERIES_FROM; from++) sum += 1 / (a + from);
  const left = count - from;
  if (left === 0) return sum;
  const base = a + from;
  return sum + Math.log1p(left / base) + digammaRemainder(base + left) - digammaRemainder(base);
}

/** Digamma less the logarithm. @source Abramowitz and Stegun (1964), 6.3.18 */
function digammaRemainder(x: number): number {
  const square = x * x;
  let sum = 691 / 32760;
  for (const term of [-1 / 132, 1 / 240, -1 / 252, 1 / 120, -1 / 12]) sum = term + sum / square;
  return sum / square - 0.5 / x;
}
