/**
 * Air temperatures with the thermometer's scatter averaged out, as far as the air itself does not change meanwhile.
 *
 * Scatter left in would make gas that follows the air closely look worse than gas that hardly follows, and so feign a leak.
 * Each reading takes the widest even window around it whose mean still agrees with the narrower ones.
 */
export function smoothAir(timeS: Float64Array, temperatureK: Float64Array): Float64Array {
  const count = temperatureK.length;
  const noiseK = scatterK(temperatureK);
  const sums = new Float64Array(count + 1);
  for (let index = 0; index < count; index++) sums[index + 1] = sums[index]! + temperatureK[index]!;
  const meanAround = (index: number, half: number) => (sums[index + half + 1]! - sums[index - half]!) / (2 * half + 1);
  return temperatureK.map((own, index) => {
    const room = Math.min(index, count - 1 - index);
    let kept = own;
    let keptHalf = 0;
    for (let half = 1; half <= room; half = Math.ceil(half * 1.6)) {
      if (timeS[index + half]! - timeS[index - half]! > WIDEST_S && half > 2) break;
      const wider = meanAround(index, half);
      const allowed = AGREEMENT * noiseK * Math.sqrt(1 / (2 * keptHalf + 1) - 1 / (2 * half + 1));
      if (Math.abs(wider - kept) > allowed) break;
      kept = wider;
      keptHalf = half;
    }
    return kept;
  });
}

const WIDEST_S = 2400;
const AGREEMENT = 1.8;

/** Scatter of single readings in K, from the bend of each three in a row; the middle of them, so that steps do not count. */
export function scatterK(temperatureK: Float64Array): number {
  if (temperatureK.length < 8) return 0;
  const bends: number[] = [];
  for (let index = 1; index + 1 < temperatureK.length; index++)
    bends.push(Math.abs(temperatureK[index]! - (temperatureK[index - 1]! + temperatureK[index + 1]!) / 2));
  bends.sort((a, b) => a - b);
  const typical = bends[bends.length >> 1]! / 0.6745 / Math.sqrt(1.5);
  return Math.max(typical, 0.03);
}
