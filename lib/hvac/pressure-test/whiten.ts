/** A slow disturbance nobody measured: its size against the noise, and how fast it fades. */
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

/** A Kalman filter whose state is a disturbance of what is read; its gains do not depend on the column, so are made once. */
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

/**
 * The same for a disturbance of what is around the gas, which the gas then follows with its lag: sun on the coil bends the
 * pressure, it never makes it jump. Two states: the disturbance, and how far the gas has gone after it.
 */
export function laggedWhitener(
  observedS: Float64Array,
  relativeVariance: Float64Array,
  { ratio, fadeS }: Disturbance,
  lagS: number,
): Whitener {
  // The closed form below is one number over another that both vanish when lag and fade are the same.
  const apartS = Math.abs(fadeS / lagS - 1) < 1e-3 ? 1.002 * lagS : fadeS;
  const around = ratio ** 2;
  const gas = (around * apartS) / (apartS + lagS);
  const count = observedS.length;
  const scale = new Float64Array(count);
  const gasGain = new Float64Array(count);
  const aroundGain = new Float64Array(count);
  const gasCarry = new Float64Array(count);
  const aroundCarry = new Float64Array(count);
  const taken = new Float64Array(count);
  let gg = gas;
  let ga = gas;
  let aa = around;
  let logVariance = 0;
  for (let index = 0; index < count; index++) {
    if (index > 0) {
      const stepS = observedS[index]! - observedS[index - 1]!;
      const b = Math.exp(-stepS / lagS);
      const a = Math.exp(-stepS / apartS);
      const c = (apartS / (apartS - lagS)) * (a - b);
      gasCarry[index] = b;
      aroundCarry[index] = a;
      taken[index] = c;
      // What has happened meanwhile keeps the whole as likely as it was: it is what carrying alone would lose.
      const nextGg = gas + b * b * (gg - gas) + 2 * b * c * (ga - gas) + c * c * (aa - around);
      ga = gas + a * (b * (ga - gas) + c * (aa - around));
      aa = around + a * a * (aa - around);
      gg = nextGg;
    }
    const total = gg + relativeVariance[index]!;
    scale[index] = 1 / Math.sqrt(total);
    logVariance += Math.log(total);
    gasGain[index] = gg / total;
    aroundGain[index] = ga / total;
    aa -= (ga * ga) / total;
    ga *= 1 - gg / total;
    gg *= 1 - gg / total;
  }
  const whiten = (column: Float64Array) => {
    const out = new Float64Array(count);
    let inGas = 0;
    let outside = 0;
    for (let index = 0; index < count; index++) {
      inGas = gasCarry[index]! * inGas + taken[index]! * outside;
      outside *= aroundCarry[index]!;
      const surprise = column[index]! - inGas;
      inGas += gasGain[index]! * surprise;
      outside += aroundGain[index]! * surprise;
      out[index] = surprise * scale[index]!;
    }
    return out;
  };
  return { whiten, logVariance };
}
