import { type NormalEquations, normalEquations, solve } from "./least-squares";
import { type NormalPart, normalBelow } from "./normal-mixture";

/** Share of the air's changes that the gas follows: part of the circuit may stand indoors. */
const LEAST_COUPLING = 0.48;
const MOST_COUPLING = 1.03;
/** How far the gas is off at the first reading: mostly freshly filled, sometimes long settled. */
const SETTLED = { sdK: 0.4, chance: 0.3 };
const START_OFFSETS = [SETTLED, { sdK: 6.5, chance: 0.7 }];
/** Gas that something keeps at its pressure shows no settling. */
const KEPT_UP_OFFSETS = [{ ...SETTLED, sdK: 0.6 }];
const NOISE_STEPS = 12;
/** Disturbances are in proportion to the noise: were it let shrink to nothing, so would they. */
const LEAST_NOISE = 0.6;
/** Gauss-Hermite rules for what is not known of the noise. @source Abramowitz and Stegun, table 25.10, turned to the unit normal */
const KNOWN_NOISE = [[0, 1]] as const;
const WELL_KNOWN_NOISE = [
  [0, 2 / 3],
  [-Math.sqrt(3), 1 / 6],
  [Math.sqrt(3), 1 / 6],
] as const;
const HARDLY_KNOWN_NOISE = [
  [0, 0.533333],
  [-1.355626, 0.222076],
  [1.355626, 0.222076],
  [-2.85697, 0.011257],
  [2.85697, 0.011257],
] as const;
const COUPLING_NODES = 6;

/** One way the gas may have gone, with its leak given the coupling; everything else is averaged over. */
export interface HistoryFit {
  readonly logMass: number;
  readonly noisePa: number;
  readonly logNoiseSd: number;
  readonly coupling: number;
  readonly couplingSd: number;
  readonly leak: number;
  readonly leakSd: number;
  readonly leakPerCoupling: number;
  /** The likeliest history within what a coupling can be. */
  readonly likeliest: { readonly coupling: number; readonly offsetK: number };
}

export interface NoiseBelief {
  readonly noisePa: number;
  /** Spread of its logarithm. */
  readonly spread: number;
}

/** Fits the whitened readings with their causes (level, further ones, settling, loss, follow), noise averaged over. */
export function fitHistory(
  observed: Float64Array,
  causes: readonly Float64Array[],
  belief: NoiseBelief,
  keptUp: boolean,
): readonly HistoryFit[] {
  const equations = normalEquations(observed, causes);
  return (keptUp ? KEPT_UP_OFFSETS : START_OFFSETS).map(({ sdK, chance }) => {
    const fit = fitWithOffset(equations, observed.length, sdK, belief);
    return { ...fit, logMass: fit.logMass + Math.log(chance) };
  });
}

function fitWithOffset(equations: NormalEquations, count: number, offsetSdK: number, belief: NoiseBelief): HistoryFit {
  // Level, further causes and leak are free; what they take is no longer seen as noise.
  const free = equations.targets.length - 2;
  let noisePa = belief.noisePa;
  for (let round = 0; ; round++) {
    const solved = solve(equations, noisePa, offsetSdK);
    const sd = 1 / Math.sqrt(solved.couplingPrecision);
    const possible = Math.min(Math.max(solved.coupling, LEAST_COUPLING), MOST_COUPLING);
    const misfit = solved.misfit + ((possible - solved.coupling) / sd) ** 2;
    if (round < 2) {
      noisePa = likeliestNoisePa(misfit * noisePa ** 2, count - free, belief);
      continue;
    }
    const logNoise = Math.log(noisePa / belief.noisePa);
    const logNoiseSd = 1 / Math.sqrt(2 * misfit + 1 / belief.spread ** 2);
    const logCoupling = logBetween((LEAST_COUPLING - solved.coupling) / sd, (MOST_COUPLING - solved.coupling) / sd);
    return {
      logMass:
        solved.logFit -
        count * Math.log(noisePa) -
        0.5 * (logNoise / belief.spread) ** 2 +
        Math.log(logNoiseSd / belief.spread) +
        logCoupling +
        Math.log(sd),
      noisePa,
      logNoiseSd,
      coupling: solved.coupling,
      couplingSd: sd,
      leak: solved.leak,
      leakSd: solved.leakSd,
      leakPerCoupling: solved.leakPerCoupling,
      likeliest: {
        coupling: possible,
        offsetK: solved.offsetK + solved.offsetPerCoupling * (possible - solved.coupling),
      },
    };
  }
}

/** Where the misfit and the belief about the noise agree best, by Newton steps on its logarithm. */
function likeliestNoisePa(squaresPa2: number, freedom: number, { noisePa, spread }: NoiseBelief): number {
  let logNoise = 0.5 * Math.log(Math.max(squaresPa2 / Math.max(freedom, 1), (0.1 * noisePa) ** 2) / noisePa ** 2);
  for (let step = 0; step < NOISE_STEPS; step++) {
    const misfit = squaresPa2 / (noisePa * Math.exp(logNoise)) ** 2;
    const slope = misfit - freedom - logNoise / spread ** 2;
    const change = slope / (2 * misfit + 1 / spread ** 2);
    logNoise += Math.min(Math.max(change, -0.7), 0.7);
    if (Math.abs(change) < 1e-4) break;
  }
  return noisePa * Math.max(Math.exp(logNoise), LEAST_NOISE);
}

/** Logarithm of the chance that a standard normal number lies between two. */
function logBetween(low: number, high: number): number {
  if (low > 0) return logBetween(-high, -low);
  if (high < -25) return -0.5 * high * high - Math.log(-high * 2.5066);
  return Math.log(normalBelow(high) - normalBelow(low));
}

/** Adds the leak's normal parts over couplings and noises, where they make a difference and weigh at least this. */
export function addLeakParts(parts: NormalPart[], fit: HistoryFit, logWidth: number, leastLogWeight: number): void {
  const { coupling, couplingSd, leakPerCoupling, logNoiseSd } = fit;
  const logMass = fit.logMass + logWidth;
  if (logMass < leastLogWeight) return;
  const from = Math.min(Math.max(LEAST_COUPLING, coupling - 3.5 * couplingSd), MOST_COUPLING - 0.01);
  const to = Math.max(Math.min(MOST_COUPLING, coupling + 3.5 * couplingSd), from + 0.01);
  const nodes = Math.abs(leakPerCoupling) * (to - from) < 0.5 * fit.leakSd ? 2 : COUPLING_NODES;
  const step = (to - from) / nodes;
  const awayAt = (node: number) => (from + (node + 0.5) * step - coupling) / couplingSd;
  const nearest = Math.min(Math.max(-from + coupling, 0) / step, nodes - 1);
  const least = awayAt(Math.floor(nearest)) ** 2;
  let total = 0;
  for (let node = 0; node < nodes; node++) total += Math.exp(0.5 * (least - awayAt(node) ** 2));
  const noises = logNoiseSd > 0.2 ? HARDLY_KNOWN_NOISE : logNoiseSd > 0.08 ? WELL_KNOWN_NOISE : KNOWN_NOISE;
  const within = (leakPerCoupling * step) / Math.sqrt(12);
  for (let node = 0; node < nodes; node++) {
    const logWeight = logMass + 0.5 * (least - awayAt(node) ** 2) - Math.log(total);
    if (logWeight < leastLogWeight) continue;
    const mean = fit.leak + leakPerCoupling * awayAt(node) * couplingSd;
    for (const [away, chance] of noises) {
      const sd = Math.hypot(fit.leakSd * Math.exp(away * logNoiseSd), within);
      parts.push({ logWeight: logWeight + Math.log(chance), mean, sd });
    }
  }
}
