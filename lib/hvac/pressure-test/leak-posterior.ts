import { likelyDisturbances } from "./disturbances";
import { addLeakParts, fitHistory } from "./history-fit";
import { climbLags, fillLags } from "./lag-search";
import { chanceBelow, density, mixtureOf, moments, type NormalMixture, type NormalPart } from "./normal-mixture";
import type { Observations } from "./observations";
import type { PressureSeries } from "./series";
import { averaged, followedAirK, type LeakFlow, leakedSeconds, settlingShare } from "./thermal-lag";
import type { ThermometerError } from "./thermometer";
import { type Disturbance, laggedWhitener, type Whitener, whitener } from "./whiten";

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
  readonly offsetK: number;
  readonly noisePa: number;
  /** Null when nothing but the thermometer's own error was at work. */
  readonly disturbance: Disturbance | null;
}

export interface PosteriorInput {
  readonly series: PressureSeries;
  readonly observations: Observations;
  readonly atmosphericPa: number;
  readonly paPerK: number;
  readonly thermometer: (lagS: number) => ThermometerError;
  /** A further cause of free size, such as a step when gas is added; one value a reading. */
  readonly extra?: Float64Array;
}

/** A product of loss and warmth this far under the noise is left out. */
const CROSS = 0.1;
/** What a rate that is free, and does nothing, adds to the evidence: see the faint beliefs in least-squares. */
const LOG_FREE_RATE = 0.5 * Math.log(1e16);
const USUAL_COUPLING = 0.8;
const USUAL_LAG_S = 900;
const LONG_LAG_S = 2400;
const NEGLIGIBLE_LOG = 10;

/**
 * Logarithm of how much better a pressure kept up by something else than the gas shut in explains the readings than a
 * sound circuit does: gas that never followed the air and lost nothing, against gas that followed and lost less than the limit.
 */
export function logOddsKeptUp(input: PosteriorInput, posterior: LeakPosterior, limitPaPerS: number): number {
  const columns = lagColumns(input);
  const still = new Float64Array(input.observations.from.length);
  const deaf = (logLag: number) => ({ settle: columns(logLag).settle, follow: still });
  const keptUp = gather([exploreFlow(input, deaf, still, true)]).logEvidence - LOG_FREE_RATE;
  const { leak, logEvidence } = posterior;
  const within = (chanceBelow(leak, limitPaPerS) - chanceBelow(leak, 0)) / limitPaPerS;
  const sound = logEvidence + 0.5 * Math.log(2 * Math.PI) + Math.log(0.5 * density(leak, 0) + 0.5 * within);
  return keptUp - sound;
}

interface Explored {
  readonly parts: readonly NormalPart[];
  readonly most: number;
  readonly best: BestHistory;
}

export function leakPosterior(input: PosteriorInput): LeakPosterior {
  const startPa = input.series.pressureAbsPa[0]!;
  const spanS = lastOf(input.series.timeS);
  const columns = lagColumns(input);
  const explore = (flow: LeakFlow) => {
    const cold = exploreFlow(input, columns, lossPerRate(input, flow, null));
    const lostPa = Math.abs(moments(gather([cold]).leak).mean) * spanS;
    const warmth = warmthShare(input, columns, cold.best);
    const crossPa = lostPa * warmth.reduce((most, share) => Math.max(most, Math.abs(share)), 0);
    return crossPa < CROSS * cold.best.noisePa ? cold : exploreFlow(input, columns, lossPerRate(input, flow, warmth));
  };
  const choked = explore("choked");
  const posterior = gather([choked]);
  if (moments(posterior.leak).mean * spanS < 0.01 * startPa) return posterior;
  return gather([choked, explore("steady"), explore("viscous")]);
}

type ColumnsOf = (logLag: number) => LagColumns;

interface LagColumns {
  /** Pressure in Pa for 1 K that the gas was off at the start, and for a coupling of one. */
  readonly settle: Float64Array;
  readonly follow: Float64Array;
}

/** What a lag makes of the start and of the air; the same lags are asked for again and again. */
function lagColumns({ series, observations, paPerK }: PosteriorInput): ColumnsOf {
  const known = new Map<number, LagColumns>();
  return (logLag) => {
    const met = known.get(logLag);
    if (met !== undefined) return met;
    const settle = settlingShare(series, observations, Math.exp(logLag));
    const follow = followedAirK(series, observations, Math.exp(logLag));
    for (let index = 0; index < settle.length; index++) {
      settle[index]! *= paPerK;
      follow[index]! *= paPerK;
    }
    known.set(logLag, { settle, follow });
    return { settle, follow };
  };
}

/** How much the gas was warmer at each observation than at the first reading, as a share of its absolute temperature. */
function warmthShare({ series, paPerK }: PosteriorInput, columns: ColumnsOf, best: BestHistory): Float64Array {
  const { settle, follow } = columns(Math.log(best.lagS));
  const startPa = series.pressureAbsPa[0]!;
  return settle.map((left, index) => (best.offsetK * (left - paPerK) + best.coupling * follow[index]!) / startPa);
}

function exploreFlow(input: PosteriorInput, columns: ColumnsOf, loss: Float64Array, keptUp = false): Explored {
  const { series, observations } = input;
  const observedS = averaged(series.timeS, observations);
  const startPa = series.pressureAbsPa[0]!;
  const observed = observations.pressureAbsPa.map((pressure) => pressure - startPa);
  const level = new Float64Array(observed.length).fill(1);
  const fixed = input.extra ? [level, averaged(input.extra, observations)] : [level];
  const belief = { noisePa: observations.noisePa, spread: observations.noiseKnown ? 0.2 : 0.6 };
  const whitened = ({ whiten, logVariance }: Whitener) => {
    return { whiten, logVariance, observed: whiten(observed), fixed: fixed.map(whiten), loss: whiten(loss) };
  };
  const direct = (disturbance: Disturbance) =>
    whitened(whitener(observedS, observations.relativeVariance, disturbance));
  let most = Number.NEGATIVE_INFINITY;
  let likeliestLogLag: number | null = null;
  const explored = likelyDisturbances(observed.length, input.paPerK / observations.noisePa).map((likely) => {
    const { disturbance, on, chance } = likely;
    const always = on === "reading" ? direct(together(disturbance, byThermometer(input, USUAL_LAG_S))) : null;
    const whiteAt = (lagS: number) =>
      on === "nothing"
        ? direct(byThermometer(input, lagS))
        : whitened(laggedWhitener(observedS, observations.relativeVariance, disturbance, lagS));
    const visit = (logLag: number) => {
      const white = always ?? whiteAt(Math.exp(logLag));
      const { settle, follow } = columns(logLag);
      const causes = [...white.fixed, white.whiten(settle), white.loss, white.whiten(follow)];
      const found = fitHistory(white.observed, causes, belief, keptUp);
      const logPrior = Math.log(chance) - 0.5 * white.logVariance + logLagChance(logLag);
      return { logLag, logPrior, logMass: logPrior + logSum(found.map((fit) => fit.logMass)), found };
    };
    const nodes = climbLags(visit, most, likeliestLogLag);
    for (const { logMass, logLag } of nodes) {
      if (logMass <= most) continue;
      most = logMass;
      likeliestLogLag = logLag;
    }
    return { nodes, visit, disturbance, on };
  });
  const parts: NormalPart[] = [];
  let best: BestHistory = { lagS: 1, coupling: 1, offsetK: 0, noisePa: 0, disturbance: null };
  for (const { nodes, visit, disturbance, on } of explored) {
    if (nodes.every(({ logMass }) => logMass < most - NEGLIGIBLE_LOG)) continue;
    fillLags(nodes, most, visit);
    for (const [index, { logLag, logMass, logPrior, found }] of nodes.entries()) {
      if (logMass < most - NEGLIGIBLE_LOG) continue;
      const before = nodes[Math.max(index - 1, 0)]!.logLag;
      const after = nodes[Math.min(index + 1, nodes.length - 1)]!.logLag;
      const logWidth = Math.log((after - before) / 2) + logPrior;
      for (const fit of found) addLeakParts(parts, fit, logWidth, most - NEGLIGIBLE_LOG - 3);
      if (logMass < most) continue;
      most = logMass;
      const { likeliest, noisePa } = found.reduce((a, b) => (b.logMass > a.logMass ? b : a));
      best = { lagS: Math.exp(logLag), ...likeliest, noisePa, disturbance: on === "nothing" ? null : disturbance };
    }
  }
  return { parts, most, best };
}

/** Two disturbances as one: their variances add, and it fades as the larger does. */
function together(a: Disturbance, b: Disturbance): Disturbance {
  const ratio = Math.hypot(a.ratio, b.ratio);
  return { ratio, fadeS: (a.ratio ** 2 * a.fadeS + b.ratio ** 2 * b.fadeS) / ratio ** 2 };
}

function byThermometer({ thermometer, paPerK, observations }: PosteriorInput, lagS: number): Disturbance {
  const { sdK, fadeS } = thermometer(lagS);
  return { ratio: (USUAL_COUPLING * paPerK * sdK) / observations.noisePa, fadeS };
}

/** Pressure lost per rate: a warmer gas loses more of it with the same share of its amount. */
function lossPerRate(
  { series, observations, atmosphericPa }: PosteriorInput,
  flow: LeakFlow,
  warmth: Float64Array | null,
) {
  const seconds = averaged(leakedSeconds(series, atmosphericPa, flow), observations);
  return seconds.map((second, index) => -second * (1 + (warmth?.[index] ?? 0)));
}

/** Up to the better part of an hour any lag is as likely as another; beyond, less and less. */
function logLagChance(logLag: number): number {
  return -0.5 * (Math.max(0, logLag - Math.log(LONG_LAG_S)) / 0.4) ** 2;
}

function gather(explored: readonly Explored[]): LeakPosterior {
  const { mixture, logTotal } = mixtureOf(explored.flatMap((flow) => flow.parts));
  return {
    leak: mixture,
    logEvidence: logTotal,
    best: explored.reduce((a, b) => (b.most > a.most ? b : a)).best,
  };
}

function lastOf(values: Float64Array): number {
  return values[values.length - 1]!;
}

function logSum(logs: readonly number[]): number {
  const most = Math.max(...logs);
  return most === Number.NEGATIVE_INFINITY
    ? most
    : most + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - most), 0));
}
