/** A slow disturbance nobody measured (sun on the coil, a draught): its size against the noise, and how fast it fades. */
export interface Disturbance {
  readonly ratio: number;
  readonly fadeS: number;
}

/** A filter that turns a column so that what is left is independent and of variance one. */
export interface Whitener {
  readonly whiten: (column: Float64Array) => Float64Array;
  /** Sum of the logarithms of the variances taken out. */
  readonly logVariance: number;
}

/** A Kalman filter whose state is the disturbance; its gains do not depend on the column, so they are made once. */
export function whitener(observedS: Float64Array, relativeVariance: Float64Array, disturbance: Disturbance): Whitener {
  const { ratio, fadeS } = disturbance;
  const count = observedS.length;
  const scale = new Float64Array(count);
  const gain = new Float64Array(count);
  const carry = new Float64Array(count);
  let variance = ratio ** 2;
  let logVariance = 0;
  for (let index = 0; index < count; index++) {
    if (index > 0) {
      const kept = Math.exp((observedS[index - 1]! - observedS[index]!) / fadeS);
      carry[index] = kept;
      variance = kept ** 2 * variance + ratio ** 2 * (1 - kept ** 2);
    }
    const total = variance + relativeVariance[index]!;
    scale[index] = 1 / Math.sqrt(total);
    gain[index] = variance / total;
    variance *= 1 - gain[index]!;
    logVariance += Math.log(total);
  }
  const whiten = (column: Float64Array) => {
    const out = new Float64Array(count);
    let state = 0;
    for (let index = 0; index < count; index++) {
      state *= carry[index]!;
      const surprise = column[index]! - state;
      state += gain[index]! * surprise;
      out[index] = surprise * scale[index]!;
    }
    return out;
  };
  return { whiten, logVariance };
}
