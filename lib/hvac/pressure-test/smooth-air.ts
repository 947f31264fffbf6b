/**
 * Air temperatures with the thermometer's scatter averaged out, as far as the air itself does not change meanwhile.
 *
 * Scatter left in would make gas that follows the air closely look worse than gas that hardly follows, and so feign a leak.
 * Each reading takes the widest stretch around it whose straight line still agrees with the narrower ones; at the ends of
 * the record the stretch is one-sided.
 */
export function smoothAir(timeS: Float64Array, temperatureK: Float64Array): Float64Array {
  const count = temperatureK.length;
  const noiseK = scatterK(temperatureK);
  if (noiseK === 0) return temperatureK;
  const sums = runningSums(timeS, temperatureK);
  return temperatureK.map((own, index) => {
    let kept = own;
    let keptVariance = 1;
    for (let half = 1; half < count; half = Math.ceil(half * 1.5)) {
      const from = Math.max(0, index - half);
      const to = Math.min(count - 1, index + half);
      if (to - from < 2) continue;
      if (timeS[to]! - timeS[from]! > WIDEST_S && half > 2) break;
      const { at, variance } = lineThrough(sums, from, to, timeS[index]!, timeS[0]!);
      if (variance >= keptVariance) continue;
      if (Math.abs(at - kept) > AGREEMENT * noiseK * Math.sqrt(keptVariance - variance)) break;
      kept = at;
      keptVariance = variance;
    }
    return kept;
  });
}

const WIDEST_S = 2400;
const AGREEMENT = 2;

interface RunningSums {
  readonly time: Float64Array;
  readonly timeSquared: Float64Array;
  readonly value: Float64Array;
  readonly product: Float64Array;
}

function runningSums(timeS: Float64Array, values: Float64Array): RunningSums {
  const count = values.length;
  const sums = {
    time: new Float64Array(count + 1),
    timeSquared: new Float64Array(count + 1),
    value: new Float64Array(count + 1),
    product: new Float64Array(count + 1),
  };
  for (let index = 0; index < count; index++) {
    const time = timeS[index]! - timeS[0]!;
    const value = values[index]! - values[0]!;
    sums.time[index + 1] = sums.time[index]! + time;
    sums.timeSquared[index + 1] = sums.timeSquared[index]! + time * time;
    sums.value[index + 1] = sums.value[index]! + value;
    sums.product[index + 1] = sums.product[index]! + time * value;
  }
  return {
    ...sums,
    value: sums.value.map((sum, index) => sum + index * values[0]!),
    product: sums.product.map((sum, index) => sum + values[0]! * sums.time[index]!),
  };
}

/** The least-squares line through readings `from` to `to`, at one time, and its variance for scatter of one. */
function lineThrough(sums: RunningSums, from: number, to: number, timeS: number, startS: number) {
  const count = to - from + 1;
  const over = (sum: Float64Array) => sum[to + 1]! - sum[from]!;
  const middle = over(sums.time) / count;
  const mean = over(sums.value) / count;
  const spread = Math.max(over(sums.timeSquared) - count * middle ** 2, 1e-9);
  const slope = (over(sums.product) - count * middle * mean) / spread;
  const away = timeS - startS - middle;
  return { at: mean + slope * away, variance: 1 / count + away ** 2 / spread };
}

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
