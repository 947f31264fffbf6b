import { dot, type NormalEquations, normalEquations, solve } from "./least-squares";
import { moments, type NormalMixture } from "./normal-mixture";
import type { Observations } from "./observations";
import type { PressureSeries } from "./series";
import { averaged, followedAirK, type LeakFlow, leakedSeconds, settlingShare } from "./thermal-lag";
import { type Disturbance, type Whitener, whitener } from "./whiten";

/** What the readings say about the leak, over every thermal history they cannot tell apart. */
export interface LeakPosterior {
  /** In Pa/s at the first pressure; below zero means gas was added. */
  readonly leak: NormalMixture;
  /** Logarithm of how well these histories together explain the readings. */
  readonly logEvidence: number;
  readonly best: BestHistory;
}

export interface BestHistory {
  readonly lagS: number;
  readonly coupling: number;
  readonly noisePa: number;
  readonly disturbance: Disturbance;
}

export interface PosteriorInput {
  readonly series: PressureSeries;
  readonly observations: Observations;
  readonly atmosphericPa: number;
  readonly paPerK: number;
  readonly temperatureNoiseK: number;
  /** A further cause of free size, such as a step when gas is added; one value a reading. */
  readonly extra?: Float64Array;
}

/** Gas follows the air within a minute (bare pipe) to well over an hour (large coil out of the wind). */
const SHORTEST_LAG_S = 60;
const LONGEST_LAG_S = 4800;
const USUAL_LAG_S = 2400;
const COARSE_LAGS = 11;
const MOST_LAGS = 44;
/** Heat of filling goes through the same walls as the weather, so mostly at the same pace. */
const SETTLING_PACES = [
  { times: 1, chance: 0.988 },
  { times: 0.4, chance: 0.003 },
  { times: 0.63, chance: 0.003 },
  { times: 1.6, chance: 0.003 },
  { times: 2.5, chance: 0.003 },
] as const;
/** How far the gas is off at the first reading: mostly freshly filled, sometimes long settled. */
const START_OFFSETS = [
  { sdK: 0.4, chance: 0.3 },
  { sdK: 6.5, chance: 0.7 },
] as const;
/** Share of the air's changes that the gas follows: part of the circuit may stand indoors. */
const LEAST_COUPLING = 0.48;
const MOST_COUPLING = 1.03;
const COUPLING_NODES = 8;
const FADES_S = [120, 600, 3000] as const;
const RATIOS = [0.5, 2, 8, 32] as const;
const KNOWN_NOISE = [0.8, 1, 1.25, 1.6] as const;
const UNKNOWN_NOISE = [0.5, 0.8, 1.2, 1.9, 3] as const;
const NEGLIGIBLE_LOG = 10;
const HOPELESS_LOG = 60;

interface Setting {
  readonly disturbance: Disturbance;
  readonly filter: Whitener;
  readonly logChance: number;
  /** Observed, level, extras and loss per rate, filtered. */
  readonly observed: Float64Array;
  readonly fixed: readonly Float64Array[];
  readonly loss: Float64Array;
  best: number;
}

interface Component {
  readonly logWeight: number;
  readonly mean: number;
  readonly sd: number;
}

interface Explored {
  readonly components: readonly Component[];
  readonly search: Search;
}

interface LagNode {
  readonly logLag: number;
  logMass: number;
  /** Per setting: the best history met here, worth keeping or not. */
  readonly peaks: Float64Array;
  readonly components: Component[];
}

export function leakPosterior(input: PosteriorInput): LeakPosterior {
  const first = gather([exploreFlow(input, "choked", 0)]);
  const { mean, sd } = moments(first.leak);
  const fallen = mean * lastOf(input.series.timeS) > 0.01 * input.series.pressureAbsPa[0]!;
  if (!fallen && mean < 8 * sd) return first;
  const flows: readonly LeakFlow[] = fallen ? ["steady", "choked", "viscous"] : ["choked"];
  return gather(flows.map((flow) => exploreFlow(input, flow, Math.max(mean, 0))));
}

/** Remembers the most likely history met so far; what is far less likely is not worth keeping. */
class Search {
  most = Number.NEGATIVE_INFINITY;
  best: BestHistory = { lagS: 0, coupling: 1, noisePa: 0, disturbance: { ratio: 0, fadeS: 1 } };
  worthwhile(logWeight: number): boolean {
    return logWeight > this.most - NEGLIGIBLE_LOG;
  }
}

/** Walks the lags: a coarse row first, then halving where the weight changes fast. */
function exploreFlow(input: PosteriorInput, flow: LeakFlow, knownPaPerS: number): Explored {
  const search = new Search();
  const { series, observations } = input;
  const seconds = averaged(leakedSeconds(series, input.atmosphericPa, flow), observations);
  const startPa = series.pressureAbsPa[0]!;
  const { paPerK } = input;
  // Gas that has cooled since the start shows the same loss as a smaller fall.
  const leaked =
    knownPaPerS > 0
      ? seconds.map((second, index) => {
          const inside = 1 - (knownPaPerS * second) / startPa;
          return (second * observations.pressureAbsPa[index]!) / (startPa * inside);
        })
      : seconds;
  const settings = settingsFor(input, leaked);
  const visit = (logLag: number): LagNode => {
    const lagS = Math.exp(logLag);
    const follow = times(followedAirK(series, observations, lagS), paPerK);
    const settles = SETTLING_PACES.map(({ times: pace }) =>
      times(settlingShare(series, observations, lagS * pace), paPerK),
    );
    const node: LagNode = {
      logLag,
      logMass: Number.NEGATIVE_INFINITY,
      peaks: new Float64Array(settings.length).fill(Number.NEGATIVE_INFINITY),
      components: [],
    };
    for (const [index, setting] of settings.entries()) {
      if (setting.best < search.most - HOPELESS_LOG) continue;
      node.peaks[index] = weigh(input, setting, follow, settles, node, search);
      setting.best =
        setting.best === Number.POSITIVE_INFINITY ? node.peaks[index]! : Math.max(setting.best, node.peaks[index]!);
    }
    return node;
  };
  const nodes: LagNode[] = [];
  const gap = Math.log(LONGEST_LAG_S / SHORTEST_LAG_S) / (COARSE_LAGS - 1);
  for (let index = 0; index < COARSE_LAGS; index++) nodes.push(visit(Math.log(SHORTEST_LAG_S) + index * gap));
  while (nodes.length < MOST_LAGS) {
    const at = roughestGap(nodes, (node) => node.logMass, 0.8) ?? sharpestGap(nodes, settings, search);
    if (at === null) break;
    nodes.splice(at + 1, 0, visit((nodes[at]!.logLag + nodes[at + 1]!.logLag) / 2));
  }
  const components = nodes.flatMap((node, index) => {
    const before = nodes[Math.max(index - 1, 0)]!.logLag;
    const after = nodes[Math.min(index + 1, nodes.length - 1)]!.logLag;
    const logWidth = Math.log((after - before) / 2) + logLagChance(node.logLag);
    return node.components.map((part) => ({ ...part, logWeight: part.logWeight + logWidth }));
  });
  return { components, search };
}

/** Up to the better part of an hour any lag is as likely as another; beyond, less and less. */
function logLagChance(logLag: number): number {
  return -0.5 * (Math.max(0, logLag - Math.log(USUAL_LAG_S)) / 0.4) ** 2;
}

/** A calm setting may fit at one lag far better than at any tried so far: looks where each setting's best changes fast. */
function sharpestGap(nodes: readonly LagNode[], settings: readonly Setting[], search: Search): number | null {
  for (const [index, setting] of settings.entries()) {
    if (setting.best < search.most - HOPELESS_LOG) continue;
    const at = roughestGap(nodes, (node) => node.peaks[index]!, 3);
    if (at !== null) return at;
  }
  return null;
}

/** The gap between lags that most of the weight hangs on and that is not yet fine enough; null when all are. */
function roughestGap(nodes: readonly LagNode[], massOf: (node: LagNode) => number, fine: number): number | null {
  let heaviest = Number.NEGATIVE_INFINITY;
  for (const node of nodes) heaviest = Math.max(heaviest, massOf(node));
  let top = 0;
  while (massOf(nodes[top]!) < heaviest) top++;
  let worst: number | null = null;
  let worstMass = heaviest - 7;
  for (let index = 0; index + 1 < nodes.length; index++) {
    const mass = Math.max(massOf(nodes[index]!), massOf(nodes[index + 1]!));
    const step = Math.abs(massOf(nodes[index]!) - massOf(nodes[index + 1]!));
    const nextToTop = index === top || index + 1 === top;
    if (!(step >= fine) || (mass <= worstMass && !nextToTop)) continue;
    const width = nodes[index + 1]!.logLag - nodes[index]!.logLag;
    const weight = Math.max(mass, worstMass) + Math.log(width);
    if (worst === null || weight > worstMass) {
      worstMass = weight;
      worst = index;
    }
  }
  return worst;
}

/** Adds to a lag's node every disturbance, pace, noise, offset and coupling worth keeping. */
function weigh(
  input: PosteriorInput,
  setting: Setting,
  followRaw: Float64Array,
  settlesRaw: readonly Float64Array[],
  node: LagNode,
  search: Search,
): number {
  let peak = Number.NEGATIVE_INFINITY;
  const { observations } = input;
  const follow = setting.filter.whiten(followRaw);
  const noises = observations.noiseKnown ? KNOWN_NOISE : UNKNOWN_NOISE;
  const spread = observations.noiseKnown ? 0.2 : 0.7;
  const count = observations.from.length;
  let equations: NormalEquations | null = null;
  for (const [pace, { chance }] of SETTLING_PACES.entries()) {
    const settle = setting.filter.whiten(settlesRaw[pace]!);
    equations = equationsFor(setting, settle, follow, equations);
    for (const noise of noises) {
      const noisePa = observations.noisePa * noise;
      const logNoise = -0.5 * (Math.log(noise) / spread) ** 2 - count * Math.log(noisePa);
      for (const offset of START_OFFSETS) {
        const solved = solve(equations, noisePa, offset.sdK);
        if (solved === null) continue;
        const logModel = setting.logChance + logNoise + Math.log(chance * offset.chance) + solved.logFit;
        const beyond = Math.max(0, LEAST_COUPLING - solved.coupling, solved.coupling - MOST_COUPLING);
        peak = Math.max(peak, logModel - 0.5 * beyond ** 2 * solved.couplingPrecision);
        if (!search.worthwhile(logModel)) continue;
        const reach = 3 / Math.sqrt(solved.couplingPrecision);
        const from = Math.min(Math.max(LEAST_COUPLING, solved.coupling - reach), MOST_COUPLING - 0.02);
        const step = (Math.max(Math.min(MOST_COUPLING, solved.coupling + reach), from + 0.02) - from) / COUPLING_NODES;
        const logStep = Math.log(step);
        for (let place = 0; place < COUPLING_NODES; place++) {
          const coupling = from + (place + 0.5) * step;
          const off = coupling - solved.coupling;
          const logWeight = logModel + logStep - 0.5 * off * off * solved.couplingPrecision;
          if (!search.worthwhile(logWeight)) continue;
          node.components.push({ logWeight, mean: solved.leak + solved.leakPerCoupling * off, sd: solved.leakSd });
          node.logMass = addLogs(node.logMass, logWeight);
          if (logWeight > search.most) {
            search.most = logWeight;
            search.best = { lagS: Math.exp(node.logLag), coupling, noisePa, disturbance: setting.disturbance };
          }
        }
      }
    }
  }
  return peak;
}

/** The equations for another pace of settling share all but one row with the one before. */
function equationsFor(
  { observed, fixed, loss }: Setting,
  settle: Float64Array,
  follow: Float64Array,
  previous: NormalEquations | null,
): NormalEquations {
  const causes = [...fixed, settle, loss, follow];
  if (previous === null) return normalEquations(observed, causes);
  const n = causes.length;
  const row = fixed.length;
  for (let index = 0; index < n; index++) {
    const product = dot(settle, causes[index]!);
    previous.products[row * n + index] = product;
    previous.products[index * n + row] = product;
  }
  previous.targets[row] = dot(settle, observed);
  return previous;
}

function settingsFor(input: PosteriorInput, leaked: Float64Array): Setting[] {
  const { observations, series } = input;
  const first = series.pressureAbsPa[0]!;
  const observedS = averaged(series.timeS, observations);
  const observed = observations.pressureAbsPa.map((pressure) => pressure - first);
  const level = new Float64Array(observed.length).fill(1);
  const fixed = input.extra ? [level, averaged(input.extra, observations)] : [level];
  const loss = leaked.map((seconds) => -seconds);
  return disturbancesFor(input).map(({ disturbance, chance }) => {
    const filter = whitener(observedS, observations.relativeVariance, disturbance);
    return {
      disturbance,
      filter,
      logChance: Math.log(chance) - 0.5 * filter.logVariance,
      observed: filter.whiten(observed),
      fixed: fixed.map(filter.whiten),
      loss: filter.whiten(loss),
      best: Number.POSITIVE_INFINITY,
    };
  });
}

/** Calm air is the likeliest; the noisier the thermometer, the likelier a disturbance of that size. */
function disturbancesFor({ observations, paPerK, temperatureNoiseK }: PosteriorInput) {
  const expected = (paPerK * temperatureNoiseK) / observations.noisePa;
  const calm = 0.6 / (1 + expected ** 2);
  const found = [{ disturbance: { ratio: 0, fadeS: 1 }, chance: calm }];
  if (observations.from.length < 4) return found;
  const favour = (ratio: number) => 0.25 + Math.exp(-0.5 * (Math.log(ratio / Math.max(expected, 0.2)) / 1.2) ** 2);
  const total = RATIOS.reduce((sum, ratio) => sum + favour(ratio) * FADES_S.length, 0);
  for (const ratio of RATIOS)
    for (const fadeS of FADES_S)
      found.push({ disturbance: { ratio, fadeS }, chance: ((1 - calm) * favour(ratio)) / total });
  return found;
}

function gather(explored: readonly Explored[]): LeakPosterior {
  const components = explored.flatMap((flow) => flow.components);
  let most = Number.NEGATIVE_INFINITY;
  for (const { logWeight } of components) most = Math.max(most, logWeight);
  const kept = components.filter(({ logWeight }) => logWeight > most - NEGLIGIBLE_LOG);
  const weight = Float64Array.from(kept, ({ logWeight }) => Math.exp(logWeight - most));
  const total = weight.reduce((sum, value) => sum + value, 0);
  const { best } = explored.reduce((a, b) => (b.search.most > a.search.most ? b : a)).search;
  return {
    leak: { mean: Float64Array.from(kept, ({ mean }) => mean), sd: Float64Array.from(kept, ({ sd }) => sd), weight },
    logEvidence: most + Math.log(total),
    best,
  };
}

function lastOf(values: Float64Array): number {
  return values[values.length - 1]!;
}

function times(column: Float64Array, factor: number): Float64Array {
  return column.map((value) => value * factor);
}

function addLogs(a: number, b: number): number {
  const [low, high] = a < b ? [a, b] : [b, a];
  return low === Number.NEGATIVE_INFINITY ? high : high + Math.log1p(Math.exp(low - high));
}
