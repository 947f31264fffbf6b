/**
 * A circuit under vacuum, integrated second by second: air through a leak, water from a film, gas out of oil and off
 * surfaces, the warmth of the coil, then a gauge that reads it. Shares nothing with the judging code; water's curve
 * is the Magnus form, not the one the product uses.
 * @source Magnus coefficients: Alduchov and Eskridge, J. Appl. Meteorol. 35 (1996) 601 [memory]
 */
export interface Physics {
  startMicron: number;
  leakMicronPerMin: number;
  leakFromS: number;
  filmPerS: number;
  filmMicron: number;
  oil: readonly { micron: number; tauS: number; fromS: number }[];
  surfaceMicron: number;
  surfaceFromS: number;
  settleMicron: number;
  settleTauS: number;
  wallC: number;
  warmingC: (atS: number) => number;
  /** Extra gas from oil for each degree, as a share. */
  oilPerDegree: number;
  /** Suction of a pump still connected, per second, between two times. */
  pump: { perS: number; ultimateMicron: number; fromS: number; untilS: number } | null;
}

export function waterMicron(temperatureC: number): number {
  const pascal =
    temperatureC < 0
      ? 611.21 * Math.exp((22.587 * temperatureC) / (temperatureC + 273.86))
      : 610.94 * Math.exp((17.625 * temperatureC) / (temperatureC + 243.04));
  return pascal / 0.133322368421;
}

/** True pressure in micron at each second from isolation to `untilS`. */
export function integrate(physics: Physics, untilS: number): Float64Array {
  const pressure = new Float64Array(Math.ceil(untilS) + 1);
  let air = physics.startMicron;
  let water = 0;
  let oilGas = 0;
  let filmLeft = physics.filmMicron;
  const evolved = physics.oil.map(() => 0);
  const startK = physics.wallC + 273.15;
  for (let s = 0; s < pressure.length; s++) {
    const warming = physics.warmingC(s);
    const ratio = (startK + warming) / startK;
    const total = air + water + oilGas;
    pressure[s] = total * ratio + physics.settleMicron * Math.exp(-s / physics.settleTauS);
    if (s >= physics.leakFromS) air += (physics.leakMicronPerMin / 60) * (1 - (total / 760_000) ** 2);
    air += physics.surfaceMicron / (s + physics.surfaceFromS);
    if (filmLeft > 0) {
      const given = Math.min(filmLeft, physics.filmPerS * (waterMicron(physics.wallC + warming) - water * ratio));
      water += given;
      filmLeft -= given;
    }
    physics.oil.forEach(({ micron, tauS, fromS }, index) => {
      if (s < fromS) return;
      const wanted = micron * (1 + physics.oilPerDegree * warming);
      const given = (wanted - evolved[index]!) / tauS;
      evolved[index]! += given;
      oilGas += given;
    });
    if (physics.pump && s >= physics.pump.fromS && s < physics.pump.untilS) {
      const drawn = Math.min(0.9, physics.pump.perS) * Math.max(0, total - physics.pump.ultimateMicron);
      const share = drawn / total;
      air -= air * share;
      water -= water * share;
      oilGas -= oilGas * share;
    }
  }
  return pressure;
}
