/**
 * A circuit as balances of matter and heat. Gas is counted in micron at the wall's first temperature. Air comes through
 * a leak; water evaporates from a film that cools by it, towards saturation at its own temperature; refrigerant leaves oil
 * by Henry's law through a skin from a deep layer; sites on the walls let go at rates spread over decades, as they already
 * did while the pump ran. Part of the gas may stand indoors. A pump may still draw.
 * @source saturation over water and over ice: Murphy and Koop, Q. J. R. Meteorol. Soc. 131 (2005) 1539 [memory]
 */
export interface Circuit {
  readonly wallC: number;
  /** Warming of the wall since isolation, K. */
  readonly warmingK: (atS: number) => number;
  /** Share of the gas that follows the wall. */
  readonly outdoors: number;
  readonly startMicron: number;
  readonly leakPerMin: number;
  readonly leakFromS: number;
  readonly film: null | {
    readonly micron: number;
    readonly perS: number;
    readonly coolsKPerMicron: number;
    readonly warmsInS: number;
  };
  readonly oil: null | Oil;
  readonly walls: null | { readonly micron: number; readonly pumpedS: number };
  readonly pump: null | {
    readonly perS: number;
    readonly restMicron: number;
    readonly fromS: number;
    readonly untilS: number;
  };
}

export interface Oil {
  /** Where refrigerant's pressure ends if nothing else happens, and how fast skin and deep oil exchange with the gas. */
  readonly levelMicron: number;
  readonly skinS: number;
  readonly deepS: number;
  readonly deepShare: number;
  /** The crankcase heater comes on then. */
  readonly warmFromS: number;
}

const SITES_S = [20, 60, 180, 540, 1620, 4860, 14_580];
/** Gas in the oil over gas in the space above it, at rest. */
const HELD = 3;
const OIL_PER_K = 0.02;

/** True pressure in micron at each whole second. */
export function pressureOf(circuit: Circuit, lastS: number): Float64Array {
  const { wallC, film, oil, walls, pump } = circuit;
  const wallK = wallC + 273.15;
  const pressure = new Float64Array(Math.ceil(lastS) + 2);
  let [air, water, refrigerant] = [circuit.startMicron, 0, 0];
  let filmLeft = film?.micron ?? 0;
  let filmColdK = 0;
  // Held in the oil, as the pressure it would make: at the start all the gas there is.
  let skin = oil ? (oil.levelMicron * (1 + HELD)) / HELD : 0;
  let deep = skin;
  const sites = SITES_S.map((tauS) => (walls ? (walls.micron / SITES_S.length) * Math.exp(-walls.pumpedS / tauS) : 0));
  for (let s = 0; s < pressure.length; s++) {
    const warmK = circuit.warmingK(s);
    const total = air + water + refrigerant;
    pressure[s] = total * (1 + (circuit.outdoors * warmK) / wallK);
    if (s >= circuit.leakFromS) air += (circuit.leakPerMin / 60) * (1 - (total / 760_000) ** 2);
    for (let k = 0; k < sites.length; k++) {
      const gone = sites[k]! * -Math.expm1(-1 / SITES_S[k]!);
      sites[k]! -= gone;
      air += gone;
    }
    if (film && filmLeft > 0) {
      const short = saturationMicron(wallC + warmK - filmColdK) - water;
      const given = Math.min(filmLeft, short * -Math.expm1(-film.perS * Math.min(1, filmLeft / (0.1 * film.micron))));
      water += given;
      filmLeft -= given;
      filmColdK += Math.max(0, given) * film.coolsKPerMicron - filmColdK / film.warmsInS;
    }
    if (oil && s >= oil.warmFromS) {
      const eased = 1 + OIL_PER_K * warmK;
      const toGas = ((skin * eased - refrigerant) / oil.skinS) * (HELD / (1 + HELD));
      const toSkin = ((deep - skin) / oil.deepS) * oil.deepShare;
      refrigerant += toGas;
      skin += (toSkin - toGas / HELD) / (1 - oil.deepShare);
      deep -= toSkin / Math.max(oil.deepShare, 1e-9);
    }
    if (pump && s >= pump.fromS && s < pump.untilS) {
      const left = (pump.restMicron + (total - pump.restMicron) * Math.exp(-pump.perS)) / total;
      if (total > pump.restMicron) [air, water, refrigerant] = [air * left, water * left, refrigerant * left];
    }
  }
  return pressure;
}

/** Where the pressure ends without the leak, at the first temperature; null where a film keeps it at saturation. */
export function levelOf(circuit: Circuit): number | null {
  if (circuit.film && circuit.film.micron > saturationMicron(circuit.wallC)) return null;
  const fromWalls = circuit.walls
    ? SITES_S.reduce((sum, tauS) => sum + Math.exp(-circuit.walls!.pumpedS / tauS), 0) *
      (circuit.walls.micron / SITES_S.length)
    : 0;
  return circuit.startMicron + (circuit.film?.micron ?? 0) + (circuit.oil?.levelMicron ?? 0) + fromWalls;
}

export function saturationMicron(temperatureC: number): number {
  const t = temperatureC + 273.15;
  const logPa =
    t < 273.15
      ? 9.550426 - 5723.265 / t + 3.53068 * Math.log(t) - 0.00728332 * t
      : 54.842763 -
        6763.22 / t -
        4.21 * Math.log(t) +
        0.000367 * t +
        Math.tanh(0.0415 * (t - 218.8)) * (53.878 - 1331.22 / t - 9.44523 * Math.log(t) + 0.014025 * t);
  return Math.exp(logPa) * 7.50061683;
}
