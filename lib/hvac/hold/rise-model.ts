import type { FitPoint } from "./fit-points";
import type { NormalEquations } from "./least-squares";

/**
 * One contribution to the pressure of an isolated circuit. Every one but the leak fades, and none but the first
 * minute's settling can be negative: that is what bounds the leak.
 *
 * level: where the pressure ends once everything has faded. leak: a steady rise, from `fromS` on.
 * fade: water or refrigerant leaving oil, a film evaporating, surfaces giving off gas: any sum of relaxations with
 * non-negative weights, so no single law (1/t, root of t, exponential) is presumed. late-fade: the same begun later,
 * as when a crankcase heater comes on. film: a steady source that runs dry. settle: gas and gauge coming to rest.
 * sway: the sun coming and going, unseen. drift: what an unseen change of temperature or of the gauge may do. warmth: what the coil's temperature does
 * beyond the gas law.
 */
export type Contribution =
  | { readonly kind: "level" }
  | { readonly kind: "leak"; readonly fromS: number }
  | { readonly kind: "fade"; readonly tauS: number }
  | { readonly kind: "late-fade"; readonly fromS: number; readonly tauS: number }
  | { readonly kind: "film"; readonly untilS: number }
  | { readonly kind: "settle"; readonly tauS: number; readonly sigmaPa: number }
  | { readonly kind: "drift"; readonly aboutS: number; readonly sigmaPerS: number }
  | { readonly kind: "sway"; readonly perS: number; readonly phase: number }
  | { readonly kind: "warmth"; readonly sigmaPaPerK: number };

export interface RiseModel {
  readonly contributions: readonly Contribution[];
  readonly levelIndex: number;
  readonly leakIndex: number;
  /** The level is fitted as a difference from this. */
  readonly centrePa: number;
  readonly equations: NormalEquations;
  /** When the leak of this model begins. */
  readonly leakFromS: number;
}

const FASTEST_FADE_S = 18;
const FADE_RATIO = 1.5;
const SETTLE_TAUS_S = [10, 25] as const;
/** How far gas and gauge may be from rest at isolation, as a share of the pressure. [own choice] */
const SETTLE_FRACTION = 0.1;
const FILM_SHARES = [0.15, 0.3, 0.45, 0.6, 0.75] as const;
const FASTEST_LATE_S = 15;
const LATE_RATIO = 1.7;
const TRIAL_TAUS_S = [20, 60, 200, 700] as const;
const SWAYS = 4;
/** How far sun and cloud may sway the pressure where no temperatures were taken, as a share of it. [own choice] */
const SWAY_FRACTION = 0.008;
/** Drift of gas temperature and gauge over a whole hold, as a share of the pressure: about 2 K unseen. [own choice] */
const UNSEEN_DRIFT = 0.006;
const SEEN_DRIFT = 0.0025;
const DRIFT_AT_LEAST_OVER_S = 300;
/** Beyond the gas law a degree may move this share of the pressure (water's own curve: 0.06). [own choice] */
const WARMTH_PER_K = 0.01;

/** What may have changed during the hold: something began at a moment, or the sun came and went. */
export interface Change {
  readonly lateFromS?: number;
  readonly swaying?: boolean;
}

export interface ModelSpan {
  readonly slowestFadeS: number;
  readonly temperaturesKnown: boolean;
}

/** The contributions a record of these points could hold; with `lateFromS`, one of them begins then. */
export function riseModel(points: readonly FitPoint[], span: ModelSpan, change: Change = {}): RiseModel {
  const { lateFromS, swaying } = change;
  const lastS = points[points.length - 1]!.atS;
  const meanPa = points.reduce((sum, { pressurePa }) => sum + pressurePa, 0) / points.length;
  const contributions: Contribution[] = [{ kind: "level" }, { kind: "leak", fromS: lateFromS ?? 0 }];
  for (const tauS of spreadTaus(FASTEST_FADE_S, span.slowestFadeS, FADE_RATIO))
    contributions.push({ kind: "fade", tauS });
  for (const share of FILM_SHARES) contributions.push({ kind: "film", untilS: share * lastS });
  for (const tauS of SETTLE_TAUS_S)
    contributions.push({ kind: "settle", tauS, sigmaPa: SETTLE_FRACTION * points[0]!.pressurePa });
  const sigmaPerS = (span.temperaturesKnown ? SEEN_DRIFT : UNSEEN_DRIFT) / Math.max(lastS, DRIFT_AT_LEAST_OVER_S);
  contributions.push({ kind: "drift", aboutS: lastS / 2, sigmaPerS });
  if (span.temperaturesKnown) contributions.push({ kind: "warmth", sigmaPaPerK: WARMTH_PER_K * meanPa });
  if (lateFromS !== undefined) {
    contributions.push({ kind: "film", untilS: lateFromS });
    for (const tauS of spreadTaus(FASTEST_LATE_S, span.slowestFadeS, LATE_RATIO))
      contributions.push({ kind: "late-fade", fromS: lateFromS, tauS });
  }
  if (swaying) {
    for (let turn = 1; turn <= SWAYS; turn++) {
      const perS = (Math.PI * turn) / lastS;
      contributions.push({ kind: "sway", perS, phase: 0 }, { kind: "sway", perS, phase: Math.PI / 2 });
    }
  }
  return modelOf(points, contributions, meanPa, lateFromS ?? 0);
}

/** Time constants from the fastest to the slowest, both included: a level is bounded by the slowest there is. */
function spreadTaus(fastestS: number, slowestS: number, ratioAtMost: number): number[] {
  const steps = Math.ceil(Math.log(slowestS / fastestS) / Math.log(ratioAtMost));
  return Array.from({ length: steps + 1 }, (_, step) => fastestS * (slowestS / fastestS) ** (step / steps));
}

/** A small model to try a moment at: what an earlier fit needed, and something begun then. */
export function trialModel(points: readonly FitPoint[], needed: readonly Contribution[], lateFromS: number): RiseModel {
  const meanPa = points.reduce((sum, { pressurePa }) => sum + pressurePa, 0) / points.length;
  const contributions: Contribution[] = [
    { kind: "level" },
    { kind: "leak", fromS: lateFromS },
    ...needed.filter(({ kind }) => kind !== "level" && kind !== "leak"),
    { kind: "film", untilS: lateFromS },
    ...TRIAL_TAUS_S.map((tauS) => ({ kind: "late-fade", fromS: lateFromS, tauS }) as const),
  ];
  return modelOf(points, contributions, meanPa, lateFromS);
}

function modelOf(
  points: readonly FitPoint[],
  contributions: readonly Contribution[],
  meanPa: number,
  leakFromS: number,
): RiseModel {
  return {
    contributions,
    levelIndex: 0,
    leakIndex: 1,
    centrePa: meanPa,
    equations: normalEquations(points, contributions, meanPa),
    leakFromS,
  };
}

/** A moment of the hold: when, how warm, and about which pressure. */
export type Moment = Pick<FitPoint, "atS" | "temperatureRatio" | "warmingK" | "pressurePa">;

/** Pressure in Pa that one unit of a contribution adds at this moment. */
export function shapeAt(contribution: Contribution, { atS, temperatureRatio, warmingK, pressurePa }: Moment): number {
  switch (contribution.kind) {
    case "level":
      return temperatureRatio;
    case "leak":
      return temperatureRatio * Math.max(0, atS - contribution.fromS);
    case "fade":
      return -temperatureRatio * Math.exp(-atS / contribution.tauS);
    case "late-fade":
      return -temperatureRatio * Math.exp(-Math.max(0, atS - contribution.fromS) / contribution.tauS);
    case "film":
      return -temperatureRatio * Math.max(0, contribution.untilS - atS);
    case "settle":
      return Math.exp(-atS / contribution.tauS);
    case "drift":
      return (atS - contribution.aboutS) * pressurePa;
    case "sway":
      return pressurePa * Math.sin(contribution.perS * atS + contribution.phase);
    case "warmth":
      return warmingK;
  }
}

function normalEquations(
  points: readonly FitPoint[],
  contributions: readonly Contribution[],
  centrePa: number,
): NormalEquations {
  const size = contributions.length;
  const count = points.length;
  const columns = new Float64Array(size * count);
  const residual = new Float64Array(count);
  let targetSquare = 0;
  for (let i = 0; i < count; i++) {
    const point = points[i]!;
    const { pressurePa, sigmaPa, temperatureRatio } = point;
    const value = (pressurePa - centrePa * temperatureRatio) / sigmaPa;
    residual[i] = value;
    targetSquare += value * value;
    for (let j = 0; j < size; j++) columns[j * count + i] = shapeAt(contributions[j]!, point) / sigmaPa;
  }
  const gram = new Float64Array(size * size);
  const target = new Float64Array(size);
  const scale = new Float64Array(size);
  const signed = new Uint8Array(size);
  for (let j = 0; j < size; j++) {
    for (let k = 0; k <= j; k++) gram[j * size + k] = dot(columns, j * count, columns, k * count, count);
    gram[j * size + j]! += priorWeight(contributions[j]!);
    target[j] = dot(columns, j * count, residual, 0, count);
    scale[j] = Math.sqrt(gram[j * size + j]!) || 1;
    signed[j] = isSigned(contributions[j]!) ? 1 : 0;
  }
  for (let j = 0; j < size; j++) {
    target[j]! /= scale[j]!;
    for (let k = 0; k <= j; k++) {
      const value = gram[j * size + k]! / (scale[j]! * scale[k]!);
      gram[j * size + k] = value;
      gram[k * size + j] = value;
    }
  }
  return { size, gram, target, targetSquare, scale, signed };
}

function dot(a: Float64Array, fromA: number, b: Float64Array, fromB: number, count: number): number {
  let sum = 0;
  for (let i = 0; i < count; i++) sum += a[fromA + i]! * b[fromB + i]!;
  return sum;
}

function isSigned({ kind }: Contribution): boolean {
  return kind !== "leak" && kind !== "fade" && kind !== "late-fade" && kind !== "film";
}

function priorWeight(contribution: Contribution): number {
  switch (contribution.kind) {
    case "settle":
      return 1 / contribution.sigmaPa ** 2;
    case "drift":
      return 1 / contribution.sigmaPerS ** 2;
    case "sway":
      return 1 / SWAY_FRACTION ** 2;
    case "warmth":
      return 1 / contribution.sigmaPaPerK ** 2;
    default:
      return 0;
  }
}
